import type { PlanChoices, StoredPlan, TrialPlan } from "@/shared/schemas/plan";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { ClimateGrouping } from "@/shared/vocabulary/climate";
import { endsInForce, type TrialEnds } from "./amendments";
import type { Transaction } from "./client";
import type { Prisma } from "./generated/client";

export interface LedTrialRow {
  readonly id: string;
  readonly title: string;
  readonly status: string;
  readonly invented: boolean;
  /** `YYYY-MM-DD` */
  readonly endsOn: string;
  readonly seats: number;
  readonly seatsTaken: number;
}

/** The trials an account leads, newest first. */
export async function trialsLedBy(tx: Transaction, accountId: string): Promise<LedTrialRow[]> {
  const trials = await tx.trial.findMany({
    where: { leads: { some: { accountId } } },
    include: { regions: true },
    orderBy: { createdAt: "desc" },
  });
  return trials.map(({ id, title, status, invented, endsOn, regions }) => ({
    id,
    title,
    status,
    invented,
    endsOn: dayOf(endsOn),
    seats: regions.reduce((sum, { capacity }) => sum + capacity, 0),
    seatsTaken: regions.reduce((sum, { seatsTaken }) => sum + seatsTaken, 0),
  }));
}

export async function isLeadOf(tx: Transaction, accountId: string, trialId: string): Promise<boolean> {
  return (await tx.trialLead.count({ where: { accountId, trialId } })) === 1;
}

/** A trial as its lead works on it; no recipe stands beside any outcome here. */
export interface LeadTrialRow {
  readonly id: string;
  readonly slug: string;
  readonly title: string;
  readonly question: string;
  readonly status: "draft" | "open" | "closed";
  readonly invented: boolean;
  readonly joinCode: string;
  readonly boxesMin: number;
  readonly boxesMax: number;
  /** The last day as planned, `YYYY-MM-DD`. */
  readonly endsOn: string;
  /** The ends in force, amendments counted. */
  readonly ends: TrialEnds;
  readonly grouping: ClimateGrouping;
  /** What the lead chose for a draft's plan; null while nothing was. */
  readonly choices: PlanChoices | null;
  readonly plan: StoredPlan | null;
  readonly planHash: string | null;
  readonly seal: string | null;
  readonly openedAt: Date | null;
  readonly closedAt: Date | null;
  readonly regions: readonly {
    readonly regionId: string;
    readonly name: string;
    readonly capacity: number;
    readonly seatsTaken: number;
  }[];
  readonly arms: readonly LeadArmRow[];
}

export interface LeadArmRow {
  readonly id: string;
  readonly code: string;
  readonly position: number;
  readonly variantId: string;
  readonly contentHash: string;
  readonly content: VariantContent;
}

export async function findLeadTrial(tx: Transaction, trialId: string): Promise<LeadTrialRow> {
  const trial = await tx.trial.findUniqueOrThrow({
    where: { id: trialId },
    include: {
      regions: { include: { region: true }, orderBy: { region: { name: "asc" } } },
      arms: { include: { variant: true }, orderBy: { position: "asc" } },
    },
  });
  return {
    id: trial.id,
    slug: trial.slug,
    title: trial.title,
    question: trial.question,
    status: trial.status as LeadTrialRow["status"],
    invented: trial.invented,
    joinCode: trial.joinCode,
    boxesMin: trial.boxesMin,
    boxesMax: trial.boxesMax,
    endsOn: dayOf(trial.endsOn),
    ends: endsInForce(trial),
    grouping: trial.grouping as unknown as ClimateGrouping,
    choices: trial.planChoices as unknown as PlanChoices | null,
    plan: trial.plan as unknown as StoredPlan | null,
    planHash: trial.planHash,
    seal: trial.seal,
    openedAt: trial.openedAt,
    closedAt: trial.closedAt,
    regions: trial.regions.map(({ region, capacity, seatsTaken }) => ({
      regionId: region.id,
      name: region.name,
      capacity,
      seatsTaken,
    })),
    arms: trial.arms.map(({ id, code, position, variantId, variant }) => ({
      id,
      code,
      position,
      variantId,
      contentHash: variant.contentHash,
      content: variant.content as unknown as VariantContent,
    })),
  };
}

/** Holds a trial's row until the transaction ends: no draw, opening or close comes between. */
export async function lockTrial(tx: Transaction, trialId: string): Promise<void> {
  await tx.$queryRaw`SELECT id FROM trial WHERE id = ${trialId}::uuid FOR UPDATE`;
}

/** Freezes the plan and publishes the seal. */
export async function markOpened(
  tx: Transaction,
  trialId: string,
  opened: {
    readonly plan: TrialPlan;
    readonly planHash: string;
    readonly seal: string;
    readonly chainStart: string;
    readonly ciphertext: Uint8Array<ArrayBuffer>;
  },
): Promise<void> {
  const { plan, planHash, seal, chainStart, ciphertext } = opened;
  await tx.trialSecret.create({ data: { trialId, ciphertext } });
  await tx.trial.update({
    where: { id: trialId },
    data: {
      status: "open",
      plan: plan as unknown as Prisma.InputJsonValue,
      planHash,
      seal,
      lastHash: chainStart,
      openedAt: new Date(),
    },
  });
}

export async function findSecret(tx: Transaction, trialId: string): Promise<Uint8Array> {
  const { ciphertext } = await tx.trialSecret.findUniqueOrThrow({ where: { trialId } });
  return ciphertext;
}

/** Closes a trial by the database's own clock, which also stamps what is received, and publishes the secret. */
export async function markClosed(tx: Transaction, trialId: string, secretHex: string): Promise<void> {
  await tx.$executeRaw`
    UPDATE trial SET status = 'closed', closed_at = clock_timestamp(), opened_secret = ${secretHex}
     WHERE id = ${trialId}::uuid`;
}

function dayOf(date: Date): string {
  return date.toISOString().slice(0, 10);
}
