import type { HideableKind } from "@/shared/vocabulary/desk";
import type { Transaction } from "./client";
import { Prisma } from "./generated/client";

/** Own words or a picture of a trial's boxes, with whose it is. */
export interface HideableThing {
  readonly id: string;
  readonly boxCode: string | null;
  /** Of words; null of a picture. */
  readonly text: string | null;
  readonly isHidden: boolean;
  readonly author: { readonly id: string; readonly email: string };
}

/** Own words about an event or a reading of a trial's box, or a picture of one of its boxes or sets; else null. */
export async function findHideable(
  tx: Transaction,
  trialId: string,
  kind: HideableKind,
  id: string,
): Promise<HideableThing | null> {
  const rows =
    kind === "words"
      ? await tx.$queryRaw<HideableThing[]>`
          SELECT words.id::text, box.code AS "boxCode", words.text, words.hidden_at IS NOT NULL AS "isHidden",
            jsonb_build_object('id', account.id, 'email', account.email) AS author
          FROM free_text words JOIN account ON account.id = words.account_id
          JOIN (SELECT id, box_id FROM box_event UNION ALL SELECT id, box_id FROM grade) said ON said.id = words.subject_id
          JOIN box ON box.id = said.box_id JOIN outing ON outing.id = box.outing_id
          WHERE words.id = ${id}::uuid AND outing.trial_id = ${trialId}::uuid`
      : await tx.$queryRaw<HideableThing[]>`
          SELECT photo.id::text, box.code AS "boxCode", NULL AS text, photo.hidden_at IS NOT NULL AS "isHidden",
            jsonb_build_object('id', account.id, 'email', account.email) AS author
          FROM photo JOIN account ON account.id = photo.account_id LEFT JOIN box ON box.id = photo.box_id
          JOIN outing ON outing.id = coalesce(photo.outing_id, box.outing_id)
          WHERE photo.id = ${id}::uuid AND outing.trial_id = ${trialId}::uuid`;
  return rows[0] ?? null;
}

/** Hides it with a reason, or shows it again. Whose reason it is, the audit trail says: see `eraseReasonsBy`. */
export async function setHidden(
  tx: Transaction,
  kind: HideableKind,
  id: string,
  hidden: { readonly at: Date; readonly reason: string } | null,
): Promise<void> {
  const data = { hiddenAt: hidden?.at ?? null, hiddenReason: hidden?.reason ?? null };
  if (kind === "words") await tx.freeText.update({ where: { id }, data });
  else await tx.photo.update({ where: { id }, data });
}

/**
 * Takes back the words of every reason that a lead, by their pseudonym, gave for what is still hidden. It stays hidden,
 * with an empty reason.
 */
export async function eraseReasonsBy(tx: Transaction, growerId: string): Promise<void> {
  for (const [table, action] of [
    [Prisma.sql`free_text`, "words.hidden"],
    [Prisma.sql`photo`, "picture.hidden"],
  ] as const) {
    await tx.$executeRaw`
      UPDATE ${table} thing SET hidden_reason = ''
      WHERE hidden_at IS NOT NULL AND thing.id IN
        (SELECT subject_id FROM audit_entry WHERE grower_id = ${growerId}::uuid AND action = ${action})
        AND ${growerId}::uuid = (SELECT grower_id FROM audit_entry
          WHERE subject_id = thing.id AND action = ${action} ORDER BY at DESC, id DESC LIMIT 1)`;
  }
}
