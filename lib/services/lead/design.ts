import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { planTrial } from "@/lib/engine/design/planner/plan-trial";
import { done, type Result, refuse } from "@/lib/errors/result";
import type { PlanChoices } from "@/shared/schemas/plan";
import type {
  PlannerDesign,
  PlannerFigures,
  PlannerRefusal,
  PlannerRequest,
  PlannerResult,
} from "@/shared/schemas/planner";
import { authoriseLead } from "./authorise";
import { saveChoices } from "./choices";
import { ownDraft } from "./own-draft";
import { DEFAULT_PLAN_CHOICES } from "./plan";

/** The designs for a draft of the actor's and what each can find; nothing is stored. */
export async function designsFor(
  tx: Transaction,
  actor: Actor,
  trialId: string,
  request: PlannerRequest,
): Promise<Result<PlannerResult, "NOT_FOUND"> | PlannerRefusal> {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  const planned = planTrial(request);
  return planned.ok ? done(planned) : planned;
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
 * Works a design out again and keeps it as the basis of the draft's number of growers, with the margin and the share
 * who meet a recipe again.
 * @param choice which of the designs: its kind and boxes per set
 */
export async function takeIntoPlan(
  tx: Transaction,
  actor: Actor,
  input: {
    readonly trialId: string;
    readonly request: PlannerRequest;
    readonly choice: Pick<PlannerDesign, "kind" | "boxesPerSet">;
  },
): Promise<Result<null, "NOT_FOUND" | "TRIAL_NOT_DRAFT" | "REFERENCE_NOT_IN_TRIAL" | "NO_SUCH_DESIGN">> {
  const { trialId, request, choice } = input;
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  const planned = planTrial(request); // before the draft is locked: it may take a second
  const design = planned.ok
    ? planned.designs.find((each) => each.kind === choice.kind && each.boxesPerSet === choice.boxesPerSet)
    : undefined;
  const sampleSize = planned.ok && design ? basisOf(request, planned, design) : null;
  if (!sampleSize) return refuse("NO_SUCH_DESIGN");
  const draft = await ownDraft(tx, actor, trialId);
  if (!draft.ok) return draft;
  const choices = draft.value.choices ?? DEFAULT_PLAN_CHOICES;
  const { margin, meetAgainShare } = request;
  return saveChoices(tx, actor, { trialId, choices: { ...choices, sampleSize, margin, meetAgainShare } });
}
