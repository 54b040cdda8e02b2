import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { findLeadTrial, type LeadTrialRow } from "@/lib/data/lead";
import { designFigures } from "@/lib/engine/design/planner/design-figures";
import { done, type Result, refuse } from "@/lib/errors/result";
import { LEAST_MINIMUM, type PlanChoices } from "@/shared/schemas/plan";
import { ASSUMED_DEVIATIONS, armCountOf, type PlannerRequest } from "@/shared/schemas/planner";
import type {
  DesignFigures,
  PlannerDesign,
  PlannerFigures,
  PlannerRefusal,
  PlannerResult,
} from "@/shared/schemas/planner-result";
import { reading } from "../run";
import { authoriseLead } from "./authorise";
import { saveChoices } from "./choices";
import { designSoFar } from "./design-so-far";
import { ownDraft } from "./own-draft";
import { DEFAULT_PLAN_CHOICES } from "./plan";

/** Of intervals, as in every plan. */
const LEVEL = 0.95;

/** How a request is planned: in a process of its own where pages wait for others. */
export type PlanDesigns = (request: PlannerRequest) => Promise<PlannerResult | PlannerRefusal>;

/** The designs for a draft of the actor's and what each can find; nothing is stored, and no transaction waits for it. */
export async function designsFor(
  actor: Actor,
  trialId: string,
  request: PlannerRequest,
  plan: PlanDesigns,
): Promise<Result<PlannerResult, "NOT_FOUND"> | PlannerRefusal> {
  const authorised = await reading((tx) => authoriseLead(tx, actor, trialId));
  if (!authorised.ok) return authorised;
  const planned = await plan(request);
  return planned.ok ? done(planned) : planned;
}

/** How a running trial's design stands, group by group, and what its end is expected to be; no outcome is read. */
export interface RunningDesign {
  readonly trial: LeadTrialRow;
  /**
   * While the trial is open, counts by recipe are left out (`replication`, `thinArms`: empty) of groups with too few
   * households: they would tell whose boxes got what, which stands behind the curtain.
   */
  readonly groups: readonly DesignFigures[];
  /** The plan's figures, which the expected end follows; null: as many sets as so far. */
  readonly basis: PlanChoices["sampleSize"];
}

/** Null for a draft, which has no design yet. */
export async function runningDesign(
  tx: Transaction,
  actor: Actor,
  trialId: string,
  now: Date,
): Promise<Result<RunningDesign | null, "NOT_FOUND">> {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  const soFar = await designSoFar(tx, authorised.value, now);
  if (!soFar) return done(null);
  const trial = await findLeadTrial(tx, authorised.value);
  const basis = trial.plan && "form" in trial.plan ? trial.plan.sampleSize : null;
  const groups = soFar.groups.map(({ band, tally, households, sets }) => {
    const expected = basis && !soFar.isOver ? basis : null;
    const growersAtEnd = Math.max(households, expected?.growersPerGroup ?? 0);
    const setsAtEnd = Math.max(sets, expected ? expected.growersPerGroup * expected.setsPerGrower : 0);
    const group = { group: band, arms: soFar.arms.length, tally, growersAtEnd, setsAtEnd };
    const figures = designFigures(group, basis?.sd ?? ASSUMED_DEVIATIONS, LEVEL);
    const tells = trial.status === "open" && households < LEAST_MINIMUM.growersPerCell;
    return tells ? { ...figures, replication: [], thinArms: [] } : figures;
  });
  return done({ trial, groups, basis });
}

/** The climate group in which a design finds the stated difference least surely, or null when it links none. */
export function weakestGroup(design: PlannerDesign): PlannerFigures | null {
  const linked = design.groups.filter(({ growth }) => growth !== null);
  return linked.reduce<PlannerFigures | null>(
    (least, figures) => (least && chanceOf(least) <= chanceOf(figures) ? least : figures),
    null,
  );
}

/** The chance to find the difference: simulated where arrivals make the formula a guess. */
export function chanceOf({ growth }: PlannerFigures): number {
  return growth?.simulated?.power ?? growth?.power ?? 0;
}

/** What a plan says its number of growers rests on, from the group that finds least. */
export function basisOf(
  request: PlannerRequest,
  { methods }: Pick<PlannerResult, "methods">,
  design: PlannerDesign,
): PlanChoices["sampleSize"] {
  const least = weakestGroup(design);
  if (!least?.growth) return null;
  const { simulated } = least.growth;
  return {
    difference: request.difference,
    recipes: armCountOf(request.arms),
    growersPerGroup: least.growers,
    setsPerGrower: least.setsPerGrower,
    boxesPerSet: design.boxesPerSet,
    sd: request.deviations,
    sdFrom: request.deviationsFrom,
    alpha: Math.round((1 - request.level) * 10_000) / 10_000,
    power: chanceOf(least),
    powerError: simulated?.monteCarloError ?? null,
    method: simulated ? "simulated-arrivals" : methods.difference,
  };
}

/**
 * Keeps a design as the basis of the draft's number of growers, with the margin and the share who meet a recipe again.
 * @param planned what the server planned for the request
 * @param choice which of the designs: its kind and boxes per set
 */
export async function takeIntoPlan(
  tx: Transaction,
  actor: Actor,
  input: {
    readonly trialId: string;
    readonly request: PlannerRequest;
    readonly planned: PlannerResult;
    readonly choice: Pick<PlannerDesign, "kind" | "boxesPerSet">;
  },
): Promise<Result<null, "NOT_FOUND" | "TRIAL_NOT_DRAFT" | "REFERENCE_NOT_IN_TRIAL" | "NO_SUCH_DESIGN">> {
  const { trialId, request, planned, choice } = input;
  const design = planned.designs.find(
    ({ kind, boxesPerSet }) => kind === choice.kind && boxesPerSet === choice.boxesPerSet,
  );
  const sampleSize = design ? basisOf(request, planned, design) : null;
  if (!sampleSize) return refuse("NO_SUCH_DESIGN");
  const draft = await ownDraft(tx, actor, trialId);
  if (!draft.ok) return draft;
  const choices = draft.value.choices ?? DEFAULT_PLAN_CHOICES;
  const { margin, meetAgainShare } = request;
  return saveChoices(tx, actor, { trialId, choices: { ...choices, sampleSize, margin, meetAgainShare } });
}
