import type { PlanChoices } from "@/shared/schemas/plan";
import type { ClimateGrouping } from "@/shared/vocabulary/climate";
import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";

/** What a draft says, but for its recipes and choices. */
export interface DraftRow {
  readonly slug: string;
  readonly title: string;
  readonly question: string;
  readonly boxesMin: number;
  readonly boxesMax: number;
  /** `YYYY-MM-DD` */
  readonly endsOn: string;
  readonly grouping: ClimateGrouping;
  readonly regions: readonly { readonly regionId: string; readonly capacity: number }[];
}

/** Keeps a draft with its lead and regions; false when its address or join code is taken. */
export async function insertDraft(
  tx: Transaction,
  draft: DraftRow & {
    readonly id: string;
    readonly joinCode: string;
    readonly leadAccountId: string;
    /** The trial it is another season of. */
    readonly followsId?: string;
  },
): Promise<boolean> {
  const { leadAccountId, regions, endsOn, grouping, ...rest } = draft;
  const data = { ...rest, endsOn: new Date(endsOn), grouping: grouping as unknown as Prisma.InputJsonValue };
  const { count } = await tx.trial.createMany({ data: [data], skipDuplicates: true });
  if (count === 0) return false;
  await tx.trialLead.create({ data: { trialId: draft.id, accountId: leadAccountId } });
  await tx.trialRegion.createMany({ data: regions.map((region) => ({ ...region, trialId: draft.id })) });
  return true;
}

/** Whether another trial has this address. */
export async function isSlugTaken(tx: Transaction, slug: string, trialId: string): Promise<boolean> {
  return (await tx.trial.count({ where: { slug, id: { not: trialId } } })) > 0;
}

/** Puts what a draft now says in place of what it said. The trial's row must be locked. */
export async function updateDraft(tx: Transaction, trialId: string, draft: DraftRow): Promise<void> {
  const { regions, endsOn, grouping, ...rest } = draft;
  const data = { ...rest, endsOn: new Date(endsOn), grouping: grouping as unknown as Prisma.InputJsonValue };
  await tx.trial.update({ where: { id: trialId }, data });
  await tx.trialRegion.deleteMany({ where: { trialId } });
  await tx.trialRegion.createMany({ data: regions.map((region) => ({ ...region, trialId })) });
}

/** Keeps what a lead chose for a draft's plan. */
export async function updateChoices(tx: Transaction, trialId: string, choices: PlanChoices): Promise<void> {
  const planChoices = choices as unknown as Prisma.InputJsonValue;
  await tx.trial.update({ where: { id: trialId }, data: { planChoices } });
}

export async function insertArm(
  tx: Transaction,
  arm: { id: string; trialId: string; variantId: string; code: string; position: number },
): Promise<void> {
  await tx.arm.create({ data: arm });
}

/** Takes a recipe out of a draft and closes the gap, so that codes run on from A. */
export async function deleteArm(
  tx: Transaction,
  trialId: string,
  armId: string,
  codeAt: (position: number) => string,
): Promise<void> {
  await tx.arm.delete({ where: { id: armId, trialId } });
  const left = await tx.arm.findMany({ where: { trialId }, orderBy: { position: "asc" } });
  for (const [index, { id }] of left.entries()) {
    const position = index + 1;
    await tx.arm.update({ where: { id }, data: { position, code: codeAt(position) } });
  }
}
