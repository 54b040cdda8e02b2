import { isToCome } from "@/app/outings/_components/is-to-come";
import { CookingSheet } from "@/app/outings/[id]/_components/cooking-sheet";
import { FetchPanel } from "@/app/outings/[id]/_components/fetch-panel";
import { type Head, headOf } from "@/app/outings/[id]/_components/head-of";
import { RecordPanel } from "@/app/outings/[id]/_components/record-panel";
import { StepCard } from "@/app/outings/[id]/_components/step-card";
import type { HelperView } from "@/lib/services/growing/helper-view";
import { weekdayWords } from "@/lib/ui/format";
import { helperMessages } from "@/lib/ui/messages/en/helpers";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";

const words = helperMessages.page;

/** What the set waits for now, as far as a helper does it; before its day that there is nothing to do. */
export function HelperNow({ set }: { set: HelperView }) {
  const from = firstDayOf(set);
  const isEarly = isToCome(from);
  const head = helperHead(set);
  return (
    <StepCard {...(from && isEarly ? waitingHead(from, head) : head)}>
      <Step set={set} isEarly={isEarly} />
    </StepCard>
  );
}

/** The day, `YYYY-MM-DD`, before which nobody has to do anything; null where that is not known. */
function firstDayOf({ due, day }: HelperView): string | null {
  switch (due.kind) {
    case "fetch":
      return due.earliest;
    case "fetch-on":
      return due.day;
    case "set-out":
      return day;
    default:
      return null;
  }
}

function waitingHead(from: string, { title, lead }: Head): Head {
  return { title: words.nothingUntil(weekdayWords(from)), lead: [`${title}.`, ...[lead].flat()] };
}

/** As for its grower, but for what only its grower tells. */
function helperHead(set: HelperView): Head {
  switch (set.due.kind) {
    case "cook":
      return {
        title: stepMessages.cook.title,
        lead: [words.plannedFor(weekdayWords(set.day)), words.cook],
      };
    case "set-out":
      return { title: words.setOutTitle, lead: words.setOut };
    case "done":
      return words.done;
    default:
      return headOf(set);
  }
}

function Step({ set: { outingId, due, boxes, cooking }, isEarly }: { set: HelperView; isEarly: boolean }) {
  const waiting = "positions" in due ? boxes.filter(({ position }) => due.positions.includes(position)) : [];
  switch (due.kind) {
    case "cook":
      return cooking ? <CookingSheet outing={cooking} /> : null;
    case "fetch":
    case "fetch-on": {
      const named = waiting.map(({ id, position, code }) => ({ id, position, code }));
      const panel = <FetchPanel outingId={outingId} boxes={named} isDue={!isEarly} />;
      if (!isEarly) return panel;
      return (
        <details>
          <summary className="min-h-[44px] cursor-pointer py-2.5 font-semibold">{words.backAlready}</summary>
          {panel}
        </details>
      );
    }
    case "record":
      return <RecordPanel outingId={outingId} setPath="/h" boxes={waiting} />;
    default:
      return null;
  }
}
