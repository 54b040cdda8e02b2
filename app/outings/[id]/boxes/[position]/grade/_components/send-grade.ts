import type { RecordedGrade } from "@/lib/services/growing/grades";
import { draftMessages } from "@/lib/ui/messages/en/drafts";
import { withOffset } from "@/lib/ui/moments";
import { type Sent, sendWrite } from "@/lib/ui/send";
import type { GradeDraft } from "./draft";
import { measuresOf } from "./measures";

/** Sends the answers of one box. `isOpened`: the hour of its opening is on record, so none is sent. */
export function sendGrade(boxId: string, isOpened: boolean, draft: GradeDraft): Promise<Sent<RecordedGrade>> {
  const body = {
    id: draft.id,
    boxId,
    measures: measuresOf(draft),
    openedAt: isOpened ? null : withOffset(draft.openedAt),
    recordedAt: draft.recordedAt,
    basedOn: draft.basedOn,
    note: draft.note.trim() === "" ? null : draft.note,
  };
  return sendWrite<RecordedGrade>("/api/v1/grades", body, draftMessages.noSignal);
}
