import type { StoredPlan } from "@/shared/schemas/plan";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { endsInForce, type TrialEnds } from "./amendments";
import type { Transaction } from "./client";
import { Prisma } from "./generated/client";
import type { StoredCut } from "./pool-boxes";

/** What decides how a trial is pooled. */
export interface PooledTrial {
  readonly status: "open" | "closed";
  readonly plan: StoredPlan;
  readonly openedAt: Date;
  /** Where the analysis ends; null while the trial is open. */
  readonly closedAt: Date | null;
  readonly ends: TrialEnds;
  readonly arms: readonly { readonly code: string; readonly content: VariantContent }[];
}

export async function pooledTrial(tx: Transaction, trialId: string): Promise<PooledTrial> {
  const trial = await tx.trial.findUniqueOrThrow({
    where: { id: trialId },
    include: { arms: { include: { variant: true } } },
  });
  return {
    status: trial.status as PooledTrial["status"],
    plan: trial.plan as unknown as StoredPlan,
    openedAt: trial.openedAt!,
    closedAt: trial.closedAt,
    ends: endsInForce(trial),
    arms: trial.arms.map(({ code, variant }) => ({
      code,
      content: variant.content as unknown as VariantContent,
    })),
  };
}

/** What the published forms of a trial's results were worked out from so far, oldest first. */
export async function cutsShown(tx: Transaction, trialId: string): Promise<StoredCut[]> {
  const shown = await tx.poolResult.findMany({
    where: { trialId, shownBoxes: { not: Prisma.AnyNull } },
    orderBy: { computedAt: "asc" },
    select: { shownBoxes: true },
  });
  return shown.map(({ shownBoxes }) => shownBoxes as unknown as StoredCut);
}

/** The interim looks a trial has had: their shares of the planned information, rising. */
export async function looksTaken(tx: Transaction, trialId: string): Promise<number[]> {
  const looks = await tx.$queryRaw<{ fraction: number }[]>`
    SELECT DISTINCT (result -> 'interim' ->> 'look')::int AS look, (result -> 'interim' ->> 'fraction')::float8 AS fraction
    FROM pool_result
    WHERE trial_id = ${trialId}::uuid AND jsonb_typeof(result -> 'interim') = 'object'
    ORDER BY look`;
  return looks.map(({ fraction }) => fraction);
}
