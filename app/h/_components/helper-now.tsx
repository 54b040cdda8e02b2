import { isToCome } from "@/app/outings/_components/is-to-come";
import { CookingSheet } from "@/app/outings/[id]/_components/cooking-sheet";
import { FetchPanel } from "@/app/outings/[id]/_components/fetch-panel";
import { OpenedPanel } from "@/app/outings/[id]/_components/opened-panel";
import type { HelperView } from "@/lib/services/growing/helper-view";
import { ButtonLink } from "@/lib/ui/components/button";
import { weekdayWords } from "@/lib/ui/format";
import { helperMessages } from "@/lib/ui/messages/en/helpers";

const words = helperMessages.page;

/** What the set waits for now, as far as a helper does it. */
export function HelperNow({ set }: { set: HelperView }) {
  return (
    <section className="mb-8 max-w-[44em] rounded-[5px] border-2 border-act p-4">
      <h2 className="mb-1">{words.now}</h2>
      <Step set={set} />
    </section>
  );
}

function Step({ set: { outingId, due, boxes, cooking } }: { set: HelperView }) {
  const waiting = "positions" in due ? boxes.filter(({ position }) => due.positions.includes(position)) : [];
  switch (due.kind) {
    case "cook":
      return (
        <>
          <p className="mb-3">{words.cook}</p>
          {cooking ? <CookingSheet outing={cooking} /> : null}
        </>
      );
    case "set-out":
      return <p>{words.setOut}</p>;
    case "fetch":
    case "fetch-on":
      return (
        <>
          <p className="mb-3">
            {words.fetch} {fetchWords(due)}
          </p>
          <FetchPanel
            outingId={outingId}
            boxes={waiting}
            isDue={!isToCome(due.kind === "fetch" ? due.earliest : due.day)}
          />
        </>
      );
    case "record":
      return (
        <>
          <p className="mb-3">{words.record}</p>
          <p className="flex flex-wrap gap-2.5">
            {waiting.map(({ position, code }) => (
              <ButtonLink key={position} href={`/h/boxes/${position}/grade`}>
                {words.recordBox(code)}
              </ButtonLink>
            ))}
          </p>
          <OpenedPanel outingId={outingId} boxes={waiting.filter(({ isOpened }) => !isOpened)} />
        </>
      );
    default:
      return <p>{words.done}</p>;
  }
}

function fetchWords(due: Extract<HelperView["due"], { kind: "fetch" | "fetch-on" }>): string | null {
  if (due.kind === "fetch-on") return words.fetchOn(weekdayWords(due.day));
  const { earliest, likely } = due;
  return earliest && likely ? words.fetchBetween(weekdayWords(earliest), weekdayWords(likely)) : null;
}
