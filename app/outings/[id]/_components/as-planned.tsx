import type { OutingView } from "@/lib/services/growing/outing-view";
import { Facts } from "@/lib/ui/components/facts";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

const words = setMessages.outing;

/** The boxes as they were planned, cover and guard. */
export function AsPlanned({ outing: { plan, grainsAtHand } }: { outing: OutingView }) {
  const { boxKind, innerLengthCm, innerWidthCm, innerHeightCm, grainDepthCm, cover, coverClear, guard } =
    plan;
  const size = words.boxSize(
    String(innerLengthCm),
    String(innerWidthCm),
    innerHeightCm === null ? null : String(innerHeightCm),
  );
  const coverWords = [vocabularyMessages.cover[cover], ...(coverClear === false ? [words.coverTouches] : [])];
  return (
    <Facts
      items={[
        {
          label: words.box,
          value: [vocabularyMessages.boxKind[boxKind], size, words.grainDepth(String(grainDepthCm))].join(
            ", ",
          ),
        },
        {
          label: words.coverAndGuard,
          value: [...coverWords, vocabularyMessages.guard[guard]].join(", "),
        },
        {
          label: setMessages.plan.grains,
          value: grainsAtHand.map((grain) => vocabularyMessages.grain[grain]).join(", "),
        },
      ]}
    />
  );
}
