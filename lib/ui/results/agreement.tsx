import { Facts } from "@/lib/ui/components/facts";
import { resultMessages } from "@/lib/ui/messages/en/results";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { count, figure, range, why } from "./figures";

const words = resultMessages.agreement;

/** How well people who looked at the same boxes agree. */
export function Agreement({ agreement, level }: { agreement: PoolAnalysis["agreement"]; level: string }) {
  const { boxes, graders, kappa, alpha, lower, upper, reason } = agreement;
  if (kappa === null && alpha === null) return <p className="mb-4">{words.none(why(reason))}</p>;
  const alphaWords =
    lower === null || upper === null
      ? figure(alpha)
      : words.alphaWith(figure(alpha), range({ lower, upper }), level);
  return (
    <Facts
      items={[
        { label: words.base, value: words.boxes(count(boxes), count(graders)) },
        { label: words.kappa, value: figure(kappa) },
        { label: words.alpha, value: alphaWords },
      ]}
    />
  );
}
