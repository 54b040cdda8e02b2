import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { findLeadTrial, type LeadTrialRow, type LedTrialRow, trialsLedBy } from "@/lib/data/lead";
import { type GroupProgress, type LossKind, lossesByKind, progressByGroup } from "@/lib/data/lead-progress";
import { allRegions, type RegionRow } from "@/lib/data/regions";
import { type ShelfRow, shelfOf } from "@/lib/data/variants";
import { done, type Result } from "@/lib/errors/result";
import { authoriseLead } from "./authorise";

export type { GroupProgress, LeadTrialRow, LedTrialRow, LossKind, RegionRow, ShelfRow };

export interface LeadTrialView {
  readonly trial: LeadTrialRow;
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
): Promise<Result<LeadTrialView, "NOT_FOUND">> {
  const authorised = await authoriseLead(tx, actor, trialIdAsked);
  if (!authorised.ok) return authorised;
  const trialId = authorised.value;
  const trial = await findLeadTrial(tx, trialId);
  if (trial.status !== "draft") {
    const [progress, losses] = [await progressByGroup(tx, trialId), await lossesByKind(tx, trialId)];
    return done({ trial, shelf: [], progress, losses });
  }
  const taken = new Set(trial.arms.map(({ variantId }) => variantId));
  const shelf = (await shelfOf(tx, actor.accountId)).filter(({ variantId }) => !taken.has(variantId));
  return done({ trial, shelf, progress: [], losses: [] });
}
