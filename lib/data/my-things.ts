import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { TakeClass } from "@/shared/vocabulary/growth";
import type { Transaction } from "./client";
import { LETTER } from "./mails";

/** A letter of a lead's as its addressee reads it. */
export interface ReceivedLetter {
  readonly id: string;
  readonly subject: string;
  readonly body: string;
  readonly createdAt: Date;
  /** Null where the trial is gone. */
  readonly trial: { readonly title: string } | null;
}

/** The latest letters to an account, mailed or not. */
export function lettersTo(tx: Transaction, accountId: string, limit: number): Promise<ReceivedLetter[]> {
  return tx.mail.findMany({
    where: { accountId, kind: LETTER },
    select: { id: true, subject: true, body: true, createdAt: true, trial: { select: { title: true } } },
    orderBy: { id: "desc" },
    take: limit,
  });
}

/** The trials in whose line for a seat a household waits. */
export function waitingIn(tx: Transaction, householdId: string) {
  return tx.waitingPlace.findMany({
    where: { householdId },
    select: {
      id: true,
      region: { select: { name: true } },
      trial: { select: { id: true, title: true, joinCode: true } },
    },
    orderBy: { askedAt: "asc" },
  });
}

/** What became of one of a grower's own drawn boxes. */
export interface OwnBoxGrowth {
  readonly trialId: string;
  readonly band: string;
  readonly arm: string;
  readonly content: VariantContent;
  readonly code: string;
  /** Null where its growth isn't known. */
  readonly take: TakeClass | null;
  /** Neither recorded nor past recording, in a set that wasn't given up. */
  readonly pending: boolean;
}

/** A grower's own drawn boxes by trial, climate group and recipe. */
export function ownGrowth(tx: Transaction, growerId: string): Promise<OwnBoxGrowth[]> {
  return tx.$queryRaw<OwnBoxGrowth[]>`
    SELECT outing.trial_id::text AS "trialId", outing.band, arm.code AS arm, variant.content, box.code, own.take,
      own.revision IS NULL AND outing.status <> 'abandoned' AND coalesce(matter.kind <> 'growth-not-recordable', true)
        AS pending
    FROM outing
    JOIN box ON box.outing_id = outing.id
    JOIN allocation ON allocation.box_id = box.id
    JOIN arm ON arm.id = allocation.arm_id
    JOIN protocol_variant variant ON variant.id = arm.variant_id
    LEFT JOIN LATERAL (
      SELECT take, revision FROM grade
      WHERE grade.box_id = box.id AND grader_id = outing.grower_id AND NOT masked
      ORDER BY revision DESC LIMIT 1) own ON true
    LEFT JOIN LATERAL (
      SELECT kind FROM box_event event
      WHERE event.box_id = box.id AND kind IN ('growth-recordable', 'growth-not-recordable')
        AND NOT EXISTS (SELECT FROM box_event later WHERE later.withdraws_id = event.id)
      ORDER BY received_at DESC, id DESC LIMIT 1) matter ON true
    WHERE outing.grower_id = ${growerId}::uuid
    ORDER BY outing.trial_id, outing.band, arm.position, box.code`;
}
