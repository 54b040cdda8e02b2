import type { OutingView } from "@/lib/services/growing/outing-view";
import { stepMessages as words } from "@/lib/ui/messages/en/set-steps";

const STEPS = ["cook", "set-out", "fetch", "record"] as const;

/** How far a drawn set has come: what is behind it, what is due, what is to come. */
export function StepsLine({ outing: { boxes, due } }: { outing: OutingView }) {
  const now = due.kind === "done" ? STEPS.length : STEPS.findIndex((step) => due.kind.startsWith(step));
  if (now < 0 || boxes.length === 0) return null;
  return (
    <ol className="mb-4 grid max-w-[44em] grid-cols-4 gap-1.5" aria-label={words.listTitle}>
      {STEPS.map((step, at) => (
        <li
          key={step}
          aria-current={at === now ? "step" : undefined}
          className={`border-t-[6px] pt-1 text-[0.9375rem] leading-tight ${
            at === now ? "border-act font-bold" : at < now ? "border-ok text-ok" : "border-line text-quiet"
          }`}
        >
          {words.names[step]}
          {at < now ? <span className="sr-only">, {words.stepDone}</span> : null}
          {at === now ? <span className="sr-only">, {words.stepNow}</span> : null}
        </li>
      ))}
    </ol>
  );
}
