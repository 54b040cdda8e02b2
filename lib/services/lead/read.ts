import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { findLeadTrial, type LeadTrialRow, type LedTrialRow, trialsLedBy } from "@/lib/data/lead";
import { type GroupProgress, type LossKind, lossesByKind, progressByGroup } from "@/lib/data/lead-progress";
import { allRegions, type RegionRow } from "@/lib/data/regions";
import { type ShelfRow, shelfOf } from "@/lib/data/variants";
import { done, type Result } from "@/lib/errors/result";
import { hasReachedEnd, takesNoMoreDraws } from "@/lib/services/trial-ends";
import type { PlanChoices } from "@/shared/schemas/plan";
import { authoriseLead } from "./authorise";
import { type ClosingFault, closingFault } from "./close";
import { type OpeningFault, openingFaults } from "./open";
import { DEFAULT_PLAN_CHOICES } from "./plan";

export type { GroupProgress, LeadTrialRow, LedTrialRow, LossKind, OpeningFault, RegionRow, ShelfRow };

export interface LeadTrialView {
  readonly trial: LeadTrialRow;
  /** What was chosen for the plan, or the defaults while nothing was; of an opened trial the plan itself says. */
  readonly choices: PlanChoices;
  /** Of a draft: everything that stands against opening it now. */
  readonly openingFaults: readonly OpeningFault[];
  /** Of an open trial: how its end stands. */
  readonly ending: {
    /** Whether it takes no further draws. */
    readonly isOver: boolean;
    /** Whether closing now would be before the end. */
    readonly isEarly: boolean;
    /** Why it may not close now. */
    readonly fault: ClosingFault | null;
  } | null;
  /** Of a draft: the lead's own recipes it doesn't have yet. */
  readonly shelf: readonly ShelfRow[];
  readonly progress: readonly GroupProgress[];
  readonly losses: readonly LossKind[];
}

export function myTrials(tx: Transaction, actor: Actor): Promise<LedTrialRow[]> {
  return trialsLedBy(tx, actor.accountId);
}

export function regionsToChoose(tx: Transaction): Promise<RegionRow[]> {
  return allRegions(tx);
}

/** A trial as its lead sees it: how far it has come, and nothing by recipe. */
export async function leadTrialView(
  tx: Transaction,
  actor: Actor,
  trialIdAsked: string,
  now = new Date(),
): Promise<Result<LeadTrialView, "NOT_FOUND">> {
  const authorised = await authoriseLead(tx, actor, trialIdAsked);
  if (!authorised.ok) return authorised;
  const trialId = authorised.value;
  const trial = await findLeadTrial(tx, trialId);
  const choices = trial.choices ?? DEFAULT_PLAN_CHOICES;
  if (trial.status !== "draft") {
    const progress = await progressByGroup(tx, trialId, trial.closedAt);
    const losses = await lossesByKind(tx, trialId, trial.closedAt);
    const ending = trial.status === "open" ? await endingOf(tx, trial, now) : null;
    return done({ trial, choices, openingFaults: [], ending, shelf: [], progress, losses });
  }
  const taken = new Set(trial.arms.map(({ variantId }) => variantId));
  const shelf = (await shelfOf(tx, actor.accountId)).filter(({ variantId }) => !taken.has(variantId));
  const faults = openingFaults(trial, choices, now);
  return done({ trial, choices, openingFaults: faults, ending: null, shelf, progress: [], losses: [] });
}

async function endingOf(tx: Transaction, trial: LeadTrialRow, now: Date): Promise<LeadTrialView["ending"]> {
  const isEarly = !(await hasReachedEnd(tx, trial.id, trial.ends, now));
  return {
    isOver: await takesNoMoreDraws(tx, trial.id, trial.ends, now),
    isEarly,
    fault: isEarly ? await closingFault(tx, trial) : null,
  };
}
