import type { BoxView } from "@/lib/services/growing/outing-view";
import { placeMomentWords } from "@/lib/ui/format";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { KeptEventDetail } from "@/shared/schemas/box-event";
import { TakeBackButton } from "./take-back-button";

const words = stepMessages.box;

interface Props {
  readonly boxId: string;
  readonly events: readonly Pick<
    BoxView["events"][number],
    "id" | "kind" | "detail" | "occurredAt" | "offsetMinutes"
  >[];
}

/** What is on record of a box in the order it happened, each entry to be taken back unless it only follows from another. */
export function OnRecord({ boxId, events }: Props) {
  const inTime = [...events].sort((a, b) => a.occurredAt.getTime() - b.occurredAt.getTime());
  return (
    <ul aria-label={words.onRecord}>
      {inTime.map(({ id, kind, detail, occurredAt, offsetMinutes }) => {
        const name = vocabularyMessages.event[kind];
        const more = detail && detailWords(detail);
        return (
          <li key={id} className="flex flex-wrap items-center gap-x-3 border-t border-line">
            <span className="flex min-w-0 flex-1 basis-40 flex-wrap gap-x-3">
              <span>{more ? `${name}: ${more}` : name}</span>
              <span className="text-quiet">{placeMomentWords(occurredAt, offsetMinutes)}</span>
            </span>
            {detail?.becauseOf ? null : <TakeBackButton boxId={boxId} eventId={id} words={name} />}
          </li>
        );
      })}
    </ul>
  );
}

function detailWords(detail: KeptEventDetail): string {
  switch (detail.kind) {
    case "cooked-otherwise": {
      const { differs, grain, cookMinutes } = detail;
      return [
        words.differs(differs),
        ...(grain ? [vocabularyMessages.grain[grain]] : []),
        ...(cookMinutes === null ? [] : [words.cookMinutes(cookMinutes)]),
      ].join(", ");
    }
    case "not-cooked":
      return words.notCooked(detail.reason);
    case "label-gone":
      return words.known(detail.known);
    case "growth-not-recordable":
      return words.notRecordable(detail.reason);
  }
}
