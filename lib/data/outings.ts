import type { OutingInput } from "@/shared/schemas/outing";
import type { StoredPlan } from "@/shared/schemas/plan";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { STAGE_EVENTS } from "@/shared/vocabulary/box";
import type { ClimateGrouping, KoppenClass } from "@/shared/vocabulary/climate";
import { endsInForce, type TrialEnds } from "./amendments";
import type { Transaction } from "./client";

/** What planning an outing must know of its trial. */
export interface TrialRules {
  readonly id: string;
  readonly slug: string;
  readonly title: string;
  readonly status: string;
  readonly boxesMin: number;
  readonly boxesMax: number;
  /** Null in a draft. */
  readonly plan: StoredPlan | null;
  /** The ends in force, amendments counted. */
  readonly ends: TrialEnds;
  readonly grouping: ClimateGrouping;
  readonly arms: readonly ArmRow[];
}

export interface ArmRow {
  readonly id: string;
  readonly code: string;
  readonly variantId: string;
  readonly grain: string;
  readonly content: VariantContent;
}

export async function findTrialRules(tx: Transaction, trialId: string): Promise<TrialRules | null> {
  const trial = await tx.trial.findUnique({
    where: { id: trialId },
    include: { arms: { include: { variant: true }, orderBy: { position: "asc" } } },
  });
  if (!trial) return null;
  const { id, slug, title, status, boxesMin, boxesMax, plan, grouping, arms } = trial;
  return {
    id,
    slug,
    title,
    status,
    boxesMin,
    boxesMax,
    plan: plan as unknown as StoredPlan | null,
    ends: endsInForce(trial),
    grouping: grouping as unknown as ClimateGrouping,
    arms: arms.map((arm) => ({
      id: arm.id,
      code: arm.code,
      variantId: arm.variantId,
      grain: arm.variant.grain,
      content: arm.variant.content as unknown as VariantContent,
    })),
  };
}

export type OutingInsertion = "kept" | "id-taken" | "code-taken";

type PlannedOuting = Omit<OutingInput, "id" | "trialId" | "boxes" | "permission"> & {
  readonly regionId: string;
};

const columnsOf = ({ day, grainsAtHand, ...rest }: PlannedOuting) => ({
  ...rest,
  day: new Date(day),
  grainsAtHand: [...grainsAtHand],
});

/** Keeps a planned outing without its boxes. */
export async function insertOuting(
  tx: Transaction,
  outing: PlannedOuting & {
    id: string;
    trialId: string;
    enrolmentId: string;
    growerId: string;
    code: string;
  },
): Promise<OutingInsertion> {
  const { id, trialId, enrolmentId, growerId, code, ...plan } = outing;
  const data = { id, trialId, enrolmentId, growerId, code, ...columnsOf(plan) };
  const { count } = await tx.outing.createMany({ data: [data], skipDuplicates: true });
  if (count === 1) return "kept";
  return (await tx.outing.count({ where: { id } })) > 0 ? "id-taken" : "code-taken";
}

/** Plans an outing anew from the version given; false when it has changed since or isn't planned any more. */
export async function replanOuting(
  tx: Transaction,
  id: string,
  basedOn: number,
  plan: PlannedOuting,
): Promise<boolean> {
  const { count } = await tx.outing.updateMany({
    where: { id, version: basedOn, status: "planned" },
    data: { ...columnsOf(plan), version: { increment: 1 } },
  });
  return count === 1;
}

/** Moves an outing to another day from the version given; false when it has changed since. */
export async function updateDay(tx: Transaction, id: string, basedOn: number, day: string): Promise<boolean> {
  const { count } = await tx.outing.updateMany({
    where: { id, version: basedOn, status: { not: "abandoned" } },
    data: { day: new Date(day), version: { increment: 1 } },
  });
  return count === 1;
}

/** How the boxes stand, as measured at set-out; an open answer leaves what stands. */
export async function keepStanding(
  tx: Transaction,
  id: string,
  { sunkCm, spacingCm }: { sunkCm: number | null; spacingCm: number | null },
): Promise<void> {
  const data = { ...(sunkCm === null ? {} : { sunkCm }), ...(spacingCm === null ? {} : { spacingCm }) };
  await tx.outing.update({ where: { id }, data });
}

/** Keeps an outing's boxes; false when one of their ids is taken. */
export async function insertBoxes(
  tx: Transaction,
  outingId: string,
  boxes: readonly { id: string; position: number; code: string }[],
): Promise<boolean> {
  const data = boxes.map((box) => ({ ...box, outingId }));
  const { count } = await tx.box.createMany({ data, skipDuplicates: true });
  return count === boxes.length;
}

/** Takes the boxes of a planned outing away. */
export async function removeBoxes(tx: Transaction, outingId: string): Promise<void> {
  await tx.box.deleteMany({ where: { outingId } });
}

/** Drawn outings of a household's seat that are not given up and of which, as far as is known, no box has been out. */
export function drawnNotSetOut(tx: Transaction, enrolmentId: string): Promise<number> {
  return tx.outing.count({
    where: {
      enrolmentId,
      status: "drawn",
      boxes: {
        none: {
          OR: [
            { events: { some: { kind: { in: [...STAGE_EVENTS] }, withdrawnBy: null } } },
            { grades: { some: { masked: false } } },
          ],
        },
      },
    },
  });
}

/** An outing of this grower with all that its pages and its draw need, or null. */
export function findOwnOuting(tx: Transaction, growerId: string, id: string) {
  return tx.outing.findFirst({
    where: { id, growerId },
    include: {
      boxes: { orderBy: { position: "asc" } },
      enrolment: true,
      region: true,
      site: { include: { place: true } },
    },
  });
}

export type OwnOuting = NonNullable<Awaited<ReturnType<typeof findOwnOuting>>>;

/** Fixes a planned outing for good, in the climate group it is drawn for; false when it has changed since `version`. */
export async function commitOuting(
  tx: Transaction,
  outing: { id: string; version: number; band: string; koppenClass: KoppenClass; committedAt: Date },
): Promise<boolean> {
  const { id, version, ...data } = outing;
  const { count } = await tx.outing.updateMany({
    where: { id, version, status: "planned" },
    data: { ...data, status: "drawn", version: { increment: 1 } },
  });
  return count === 1;
}

/**
 * Ends an outing of this grower, stamped by the clock that stamps a trial's close, and says whether it had been drawn
 * by then; null when it had ended before. Waits for a draw that is being made for it.
 */
export async function abandonOuting(
  tx: Transaction,
  { id, growerId, reason }: { id: string; growerId: string; reason: string },
): Promise<{ readonly drawn: boolean } | null> {
  const [ended] = await tx.$queryRaw<{ drawn: boolean }[]>`
    UPDATE outing SET status = 'abandoned', abandon_reason = ${reason}, abandoned_at = clock_timestamp(),
      version = version + 1
    WHERE id = ${id}::uuid AND grower_id = ${growerId}::uuid AND status <> 'abandoned'
    RETURNING committed_at IS NOT NULL AS drawn`;
  return ended ?? null;
}

/** A page of a grower's outings, newest first, with what each box has on record; `before` is an outing's id. */
export function outingsOf(tx: Transaction, growerId: string, limit: number, before?: string) {
  return tx.outing.findMany({
    where: { growerId, ...(before ? { id: { lt: before } } : {}) },
    orderBy: { id: "desc" },
    take: limit,
    include: {
      trial: {
        select: {
          ...{ title: true, status: true, plan: true },
          pauses: { select: { pausedAt: true, resumedAt: true }, orderBy: { pausedAt: "asc" } },
        },
      },
      draw: { select: { fetchAfterDays: true } },
      site: { include: { place: true } },
      boxes: {
        orderBy: { position: "asc" },
        include: {
          events: {
            where: { withdrawnBy: null, kind: { not: "withdrawal" } },
            orderBy: [{ receivedAt: "asc" }, { id: "asc" }],
          },
          grades: { where: { graderId: growerId, masked: false }, orderBy: { revision: "desc" }, take: 1 },
        },
      },
    },
  });
}
