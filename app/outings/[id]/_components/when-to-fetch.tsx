import type { OutingView } from "@/lib/services/growing/outing-view";
import { dayWords, decimal } from "@/lib/ui/format";
import { setMessages } from "@/lib/ui/messages/en/sets";

const words = setMessages.outing;

/** When to fetch the boxes: on the day the plan fixes, or by how warm the place is. */
export function WhenToFetch({ outing: { due, fetchDay, readiness } }: { outing: OutingView }) {
  if (fetchDay) {
    const { afterDays, isDrawn } = fetchDay;
    return (
      <>
        <p className="mb-1 max-w-[44em] font-semibold">
          {due.kind === "fetch-on" ? words.fetchOn(dayWords(due.day)) : words.fetchAfter(afterDays)}
        </p>
        <p className="mb-4 max-w-[44em] text-quiet">{isDrawn ? words.fetchDrawn : words.fetchSameDay}</p>
      </>
    );
  }
  return (
    <>
      <p className="mb-1 max-w-[44em] print:hidden">
        {readiness
          ? words.readiness(decimal(readiness.meanC, 0), readiness.earliestDay, readiness.likelyDay)
          : words.readinessUnknown}
      </p>
      <p className="mb-4 max-w-[44em] text-quiet print:hidden">{words.readinessSource}</p>
    </>
  );
}
