import type { Recorder } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { findBoxToRecord, type GradeRow, gradeRevisions, ownWords, recipeOfBox } from "@/lib/data/grades";
import { photosOfSet } from "@/lib/data/photos";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { type Growth, growthOf } from "./grades";
import { type PhotoView, photoView } from "./photos";

/** One revision of a record, with what it gives. */
export interface Revision extends Pick<GradeRow, "revision" | "measures" | "recordedAt" | "offsetMinutes"> {
  readonly growth: Growth;
  /** Own words, and why a lead hid them from everyone else. */
  readonly note: { readonly text: string; readonly hiddenReason: string | null } | null;
}

/** A box as its record step shows it. */
export interface BoxRecord {
  readonly boxId: string;
  readonly code: string;
  /** Whether an hour of opening is on record. */
  readonly isOpened: boolean;
  /** The newest first; empty while nothing is recorded. */
  readonly revisions: readonly Revision[];
  /** Only once a record stands: whoever grades should not be reminded of it. Never for a helper. */
  readonly recipe: VariantContent | null;
  /** For a helper those that helpers sent. */
  readonly photos: readonly PhotoView[];
  /** Another box of the set that waits for its record. */
  readonly nextPosition: number | null;
}

/**
 * A box of the recorder's to be recorded; null before its draw, when there is none such, when it is another's, and for
 * a helper when its grower has recorded it.
 */
export async function boxRecord(
  tx: Transaction,
  recorder: Recorder,
  outingId: string,
  position: number,
): Promise<BoxRecord | null> {
  const { growerId, accountId, onlyOutingId } = recorder;
  const isHelper = onlyOutingId !== undefined;
  if (isHelper && onlyOutingId !== outingId) return null;
  const box = await findBoxToRecord(tx, growerId, outingId, position);
  if (!box) return null;
  const grades = await gradeRevisions(tx, growerId, box.id);
  if (isHelper && grades[0] && !grades[0].viaHelper) return null;
  const notes = isHelper
    ? new Map()
    : await ownWords(
        tx,
        accountId,
        grades.map(({ id }) => id),
      );
  const photos = await photosOfSet(tx, recorder, outingId);
  const next = box.outing.boxes.find(
    ({ id, _count }) => id !== box.id && _count.grades === 0 && _count.events === 0,
  );
  return {
    boxId: box.id,
    code: box.code,
    isOpened: box.events.length > 0,
    revisions: grades.map(({ id, revision, measures, recordedAt, offsetMinutes }) => ({
      revision,
      measures,
      recordedAt,
      offsetMinutes,
      growth: growthOf(measures),
      note: notes.get(id) ?? null,
    })),
    recipe: grades.length > 0 && !isHelper ? await recipeOfBox(tx, box.id) : null,
    photos: photos.filter(({ boxId }) => boxId === box.id).map(photoView),
    nextPosition: next?.position ?? null,
  };
}
