import { COOKING_EVENTS } from "@/shared/vocabulary/box";
import type { HideableKind } from "@/shared/vocabulary/desk";
import type { Transaction } from "./client";

/** Own words about a box, or a picture of it or its set. */
export interface Told {
  readonly id: string;
  readonly kind: HideableKind;
  /** Of the box whose page shows it. */
  readonly boxCode: string;
  /** Of words; null of a picture. */
  readonly text: string | null;
  readonly hiddenReason: string | null;
}

/**
 * Own words and pictures of a trial's drawn boxes, the latest first.
 * @param page `withCookingWords` as in `findLeadBox`
 */
export function toldInTrial(
  tx: Transaction,
  trialId: string,
  page: { readonly withCookingWords: boolean; readonly skip: number; readonly take: number },
): Promise<Told[]> {
  const keptBack = page.withCookingWords ? [] : [...COOKING_EVENTS];
  return tx.$queryRaw<Told[]>`
    WITH boxes AS (
      SELECT box.id, box.code, box.outing_id, box.position FROM outing JOIN box ON box.outing_id = outing.id
      WHERE outing.trial_id = ${trialId}::uuid AND outing.committed_at IS NOT NULL),
    said AS (
      SELECT event.id, boxes.code FROM boxes JOIN box_event event ON event.box_id = boxes.id
        WHERE NOT (event.kind = ANY (${keptBack}::text[]))
      UNION ALL SELECT grade.id, boxes.code FROM boxes JOIN grade ON grade.box_id = boxes.id AND NOT grade.masked),
    told AS (
      SELECT words.id, 'words' AS kind, said.code, words.text, words.hidden_reason, words.created_at
        FROM said JOIN free_text words ON words.subject_id = said.id
      UNION ALL SELECT photo.id, 'picture', boxes.code, NULL, photo.hidden_reason, photo.created_at
        FROM photo JOIN boxes ON boxes.id = photo.box_id OR (boxes.outing_id = photo.outing_id AND boxes.position = 1))
    SELECT id::text, kind, code AS "boxCode", text, hidden_reason AS "hiddenReason"
    FROM told ORDER BY created_at DESC, id DESC OFFSET ${page.skip} LIMIT ${page.take}`;
}
