import type { StoredPlan } from "@/shared/schemas/plan";
import type { PlanAmendment, PlanChange } from "@/shared/schemas/plan-amendment";
import type { Transaction } from "./client";
import type { Prisma, Trial } from "./generated/client";

/** When a trial ends: after its last day, or once so many boxes are recorded, whichever comes first. */
export interface TrialEnds {
  /** `YYYY-MM-DD` */
  readonly endsOn: string;
  readonly endsAtBoxes: number | null;
}

/** The ends as the plan has them. */
export function plannedEnds(trial: Pick<Trial, "endsOn" | "plan">): TrialEnds {
  const plan = trial.plan as unknown as StoredPlan | null;
  const endsAtBoxes = plan && "form" in plan ? plan.endsAtBoxes : null;
  return { endsOn: trial.endsOn.toISOString().slice(0, 10), endsAtBoxes };
}

/** The ends in force: the plan's, or what amendments have made of them. */
export function endsInForce(
  trial: Pick<Trial, "endsOn" | "plan" | "amendedEndsOn" | "amendedEndsAtBoxes">,
): TrialEnds {
  const planned = plannedEnds(trial);
  return {
    endsOn: trial.amendedEndsOn?.toISOString().slice(0, 10) ?? planned.endsOn,
    endsAtBoxes: trial.amendedEndsAtBoxes ?? planned.endsAtBoxes,
  };
}

/** A trial's amendments, first to last. */
export async function amendmentsOf(tx: Transaction, trialId: string): Promise<PlanAmendment[]> {
  const rows = await tx.planAmendment.findMany({ where: { trialId }, orderBy: { number: "asc" } });
  return rows.map(({ number, madeAt, change, reason, previousHash, hash }) => ({
    trialId,
    number,
    madeAt: madeAt.toISOString(),
    change: change as unknown as PlanChange,
    reason,
    previousHash,
    hash,
  }));
}

/** Keeps an amendment and puts the end it moves into force. The trial's row must be locked. */
export async function insertAmendment(
  tx: Transaction,
  amendment: PlanAmendment & { readonly id: string; readonly growerId: string },
): Promise<void> {
  const { madeAt, change, ...rest } = amendment;
  await tx.planAmendment.create({
    data: { ...rest, madeAt: new Date(madeAt), change: change as unknown as Prisma.InputJsonValue },
  });
  const { trialId: id } = amendment;
  if ("endsOn" in change) {
    await tx.trial.update({ where: { id }, data: { amendedEndsOn: new Date(change.endsOn) } });
  }
  if ("endsAtBoxes" in change) {
    await tx.trial.update({ where: { id }, data: { amendedEndsAtBoxes: change.endsAtBoxes } });
  }
}
