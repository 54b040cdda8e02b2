import type { OutingInput } from "@/shared/schemas/outing";
import type { StoredPlan } from "@/shared/schemas/plan";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
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

/** Keeps a planned outing without its boxes. */
export async function insertOuting(
  tx: Transaction,
  outing: Omit<OutingInput, "boxes"> & {
    enrolmentId: string;
    growerId: string;
    regionId: string;
    code: string;
  },
): Promise<OutingInsertion> {
  const { day, grainsAtHand, ...rest } = outing;
  const data = { ...rest, day: new Date(day), grainsAtHand: [...grainsAtHand] };
  const { count } = await tx.outing.createMany({ data: [data], skipDuplicates: true });
  if (count === 1) return "kept";
  return (await tx.outing.count({ where: { id: outing.id } })) > 0 ? "id-taken" : "code-taken";
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

/** Fixes a planned outing for good, in the climate group it is drawn for; false when it is planned no more. */
export async function commitOuting(
  tx: Transaction,
  outing: { id: string; band: string; koppenClass: KoppenClass; committedAt: Date },
): Promise<boolean> {
  const { id, ...data } = outing;
  const { count } = await tx.outing.updateMany({
    where: { id, status: "planned" },
    data: { ...data, status: "drawn", version: { increment: 1 } },
  });
  return count === 1;
}

/**
 * Ends an outing of this grower and says whether it had been drawn by then; null when it had ended before. Waits for
 * a draw that is being made for it.
 */
export async function abandonOuting(
  tx: Transaction,
  outing: { id: string; growerId: string; reason: string; at: Date },
): Promise<{ readonly drawn: boolean } | null> {
  const { id, growerId, reason, at } = outing;
  const [ended] = await tx.outing.updateManyAndReturn({
    where: { id, growerId, status: { not: "abandoned" } },
    data: { status: "abandoned", abandonReason: reason, abandonedAt: at, version: { increment: 1 } },
    select: { committedAt: true },
  });
  return ended ? { drawn: ended.committedAt !== null } : null;
}

/** A page of a grower's outings, newest first, with what each box has on record; `before` is an outing's id. */
export function outingsOf(tx: Transaction, growerId: string, limit: number, before?: string) {
  return tx.outing.findMany({
    where: { growerId, ...(before ? { id: { lt: before } } : {}) },
    orderBy: { id: "desc" },
    take: limit,
    include: {
      trial: { select: { title: true, status: true, plan: true } },
      draw: { select: { fetchAfterDays: true } },
      site: { include: { place: true } },
      boxes: {
        orderBy: { position: "asc" },
        include: {
          events: { where: { withdrawnBy: null, kind: { not: "withdrawal" } } },
          grades: { where: { graderId: growerId, masked: false }, orderBy: { revision: "desc" }, take: 1 },
        },
      },
    },
  });
}
