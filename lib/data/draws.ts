import type { LedgerEntry } from "@/shared/schemas/draw";
import type { StoredPlan } from "@/shared/schemas/plan";
import type { ClimateGrouping } from "@/shared/vocabulary/climate";
import { endsInForce, type TrialEnds } from "./amendments";
import type { Transaction } from "./client";
import type { Draw, Prisma, Trial } from "./generated/client";

/** A trial whose ledger no other transaction can lengthen until this one ends. */
export interface LockedTrial {
  readonly trialId: string;
  readonly planHash: string;
  readonly seal: string;
  readonly status: string;
  readonly plan: StoredPlan;
  /** The ends in force, amendments counted. */
  readonly ends: TrialEnds;
  readonly grouping: ClimateGrouping;
  readonly ciphertext: Uint8Array;
  readonly drawCount: number;
  readonly arms: readonly { readonly id: string; readonly code: string; readonly grain: string }[];
}

type LockedRow = Omit<LockedTrial, "ends"> & Pick<Trial, "endsOn" | "amendedEndsOn" | "amendedEndsAtBoxes">;

/**
 * Locks the trial of a grower's outing for its next draw, in one query; null when there is no such outing, or its
 * trial is a draft, which has neither seal nor plan.
 */
export async function lockTrialForDraw(
  tx: Transaction,
  growerId: string,
  outingId: string,
): Promise<LockedTrial | null> {
  const [row] = await tx.$queryRaw<LockedRow[]>`
    SELECT trial.id AS "trialId", plan_hash AS "planHash", seal, status, plan, grouping, ciphertext,
      draw_count AS "drawCount", ends_on AS "endsOn", amended_ends_on AS "amendedEndsOn",
      amended_ends_at_boxes AS "amendedEndsAtBoxes",
      (SELECT jsonb_agg(jsonb_build_object('id', arm.id, 'code', arm.code, 'grain', variant.grain)
          ORDER BY arm.position)
        FROM arm JOIN protocol_variant variant ON variant.id = arm.variant_id
        WHERE arm.trial_id = trial.id) AS arms
    FROM trial JOIN trial_secret secret ON secret.trial_id = trial.id
    WHERE trial.status <> 'draft' AND trial.id =
      (SELECT trial_id FROM outing WHERE id = ${outingId}::uuid AND grower_id = ${growerId}::uuid)
    FOR UPDATE OF trial`;
  if (!row) return null;
  const { endsOn, amendedEndsOn, amendedEndsAtBoxes, ...trial } = row;
  const { plan } = trial as unknown as Pick<Trial, "plan">;
  return { ...trial, ends: endsInForce({ plan, endsOn, amendedEndsOn, amendedEndsAtBoxes }) };
}

/** A draw of a household in a trial, and what became of its set of boxes. */
export interface HouseholdDraw {
  readonly entry: LedgerEntry;
  readonly outingId: string;
  /** The short code of its set. */
  readonly code: string;
  /** When its set was given up; null while it stands. */
  readonly abandonedAt: Date | null;
}

/** All draws of a household in a trial, first to last. */
export async function drawsOfHousehold(tx: Transaction, enrolmentId: string): Promise<HouseholdDraw[]> {
  const draws = await tx.$queryRaw<(StoredEntry & Omit<HouseholdDraw, "entry">)[]>`
    SELECT number, algorithm, inputs, result, fetch_after_days AS "fetchAfterDays",
      previous_hash AS "previousHash", hash, draw.outing_id AS "outingId", outing.code,
      outing.abandoned_at AS "abandonedAt"
    FROM outing JOIN draw ON draw.outing_id = outing.id
    WHERE outing.enrolment_id = ${enrolmentId}::uuid ORDER BY number`;
  return draws.map((draw) => {
    const { outingId, code, abandonedAt } = draw;
    return { entry: ledgerEntryOf(draw), outingId, code, abandonedAt };
  });
}

export async function findDraw(
  tx: Transaction,
  trialId: string,
  number: number,
): Promise<LedgerEntry | null> {
  const draw = await tx.draw.findUnique({ where: { trialId_number: { trialId, number } } });
  return draw && ledgerEntryOf(draw);
}

/** A trial's whole ledger, in order. */
export async function ledgerOf(tx: Transaction, trialId: string): Promise<LedgerEntry[]> {
  const draws = await tx.draw.findMany({ where: { trialId }, orderBy: { number: "asc" } });
  return draws.map(ledgerEntryOf);
}

/** At most `limit` of a trial's draws that come after the given number, in order. */
export async function ledgerPageOf(
  tx: Transaction,
  trialId: string,
  { after, limit }: { after: number; limit: number },
): Promise<LedgerEntry[]> {
  const draws = await tx.draw.findMany({
    where: { trialId, number: { gt: after } },
    orderBy: { number: "asc" },
    take: limit,
  });
  return draws.map(ledgerEntryOf);
}

/** A draw's link in the chain, without what went in and came out. */
export interface DrawLink {
  readonly number: number;
  readonly algorithm: string;
  readonly hash: string;
  readonly previousHash: string;
  /** Whether every later draw names the hash of the one before it, up to the hash published as the last. */
  readonly leadsToHead: boolean;
}

/** The draw of a trial whose hash begins and ends with these hex digits; null when there is none. */
export async function findDrawLink(
  tx: Transaction,
  trialId: string,
  { hashStart, hashEnd }: { hashStart: string; hashEnd: string },
): Promise<DrawLink | null> {
  const [link] = await tx.$queryRaw<DrawLink[]>`
    SELECT draw.number, draw.algorithm, draw.hash, draw.previous_hash AS "previousHash",
      NOT EXISTS (
        SELECT FROM generate_series(draw.number + 1, trial.draw_count + 1) AS step(number)
        LEFT JOIN draw earlier ON earlier.trial_id = trial.id AND earlier.number = step.number - 1
        LEFT JOIN draw later ON later.trial_id = trial.id AND later.number = step.number
        WHERE earlier.hash IS DISTINCT FROM
          CASE WHEN step.number > trial.draw_count THEN trial.last_hash ELSE later.previous_hash END
      ) AS "leadsToHead"
    FROM draw JOIN trial ON trial.id = draw.trial_id
    WHERE draw.trial_id = ${trialId}::uuid
      AND starts_with(draw.hash, ${hashStart}) AND right(draw.hash, length(${hashEnd})) = ${hashEnd}`;
  return link ?? null;
}

type StoredEntry = Pick<
  Draw,
  "number" | "algorithm" | "inputs" | "result" | "fetchAfterDays" | "previousHash" | "hash"
>;

export function ledgerEntryOf(draw: StoredEntry): LedgerEntry {
  const { number, algorithm, previousHash, hash, fetchAfterDays } = draw;
  return {
    number,
    algorithm,
    inputs: draw.inputs as unknown as LedgerEntry["inputs"],
    result: draw.result as unknown as LedgerEntry["result"],
    ...(fetchAfterDays === null ? {} : { fetchAfterDays }),
    previousHash,
    hash,
  };
}

/** Keeps a draw with its allocations and moves the trial's published head on to it. */
export async function insertDraw(
  tx: Transaction,
  draw: {
    id: string;
    trialId: string;
    outingId: string;
    entry: LedgerEntry;
    drawnAt: Date;
    timeSalt: string;
    allocations: readonly { boxId: string; armId: string }[];
  },
): Promise<void> {
  const { id, trialId, outingId, entry, drawnAt, timeSalt, allocations } = draw;
  const { number, hash } = entry;
  const inputs = entry.inputs as unknown as Prisma.InputJsonValue;
  const result = entry.result as unknown as Prisma.InputJsonValue;
  await tx.draw.create({ data: { ...entry, id, trialId, outingId, inputs, result, drawnAt, timeSalt } });
  await tx.allocation.createMany({ data: allocations.map((allocation) => ({ ...allocation, drawId: id })) });
  await tx.trial.update({ where: { id: trialId }, data: { drawCount: number, lastHash: hash } });
}

/** The draw of a committed outing of this grower with the recipe of each box; null before it is drawn. */
export function findOwnDraw(tx: Transaction, growerId: string, outingId: string) {
  return tx.draw.findFirst({
    where: { outingId, outing: { growerId, committedAt: { not: null } } },
    include: {
      trial: { select: { planHash: true, seal: true } },
      allocations: { include: { arm: { include: { variant: true } } } },
    },
  });
}
