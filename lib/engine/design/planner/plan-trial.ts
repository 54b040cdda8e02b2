import { armCountOf, type PlannerRequest } from "@/shared/schemas/planner";
import {
  DESIGN_KINDS,
  type PlannerDesign,
  type PlannerRefusal,
  type PlannerResult,
} from "@/shared/schemas/planner-result";
import { seededSource } from "../../random/source";
import { adviceFor, setsToConnect } from "./advice";
import { type Simulated, simulateArrivals } from "./arrivals";
import { type Candidate, candidatesFor } from "./candidates";
import { type DealtDesign, dealtDesign, joined } from "./dealt-design";
import { type FiguresContext, figuresOf } from "./figures";
import { pairVariances } from "./information";
import { ordinalBoxesPerArm } from "./power";
import type { Aims } from "./prospect";

/** Simulation takes time: only the best designs get it, and so many simulated boxes in all. */
const SIMULATED_DESIGNS = 4;
const SIMULATED_BOXES = 1_000_000;
const RUNS = { min: 400, max: 2000 } as const;
/** Sets shown of each design. */
const SHOWN_SETS = 24;

const NOTHING_SIMULATED: Simulated = { growth: null, cleanTake: null };

/** A candidate dealt to every group. */
interface Tried {
  readonly candidate: Candidate;
  readonly dealt: readonly DealtDesign[];
  readonly design: PlannerDesign;
}

/**
 * Candidate designs for a trial, what each can find, and what follows.
 *
 * Growth is compared within sets of boxes by weighted least squares with sets fixed and grower × arm random, its
 * variance taken as guessed (`growerInformation`); power from the noncentral t on at most growers − 1 degrees of
 * freedom, the noncentral F for any difference, and by simulation what has no closed form. Losses are not foreseen: a
 * lead who expects them counts the growers who bring results.
 * @param request parsed by `plannerRequestSchema`
 */
export function planTrial(request: PlannerRequest): PlannerResult | PlannerRefusal {
  const arms = armCountOf(request.arms);
  const aims: Aims = {
    difference: request.difference,
    margin: request.margin,
    alpha: 1 - request.level,
    cleanTakeDifference: request.cleanTake?.difference ?? null,
  };
  const context = {
    plannedArms: request.arms,
    deviations: request.deviations,
    aims,
  };
  const sorted = tryCandidates(request, arms, context).sort(byPower);
  if (connectedGroups(sorted[0]!.design) === 0) {
    const sets = Math.max(...request.groups.map(({ growers, setsPerGrower }) => growers * setsPerGrower));
    return {
      ok: false,
      reason: "NO_GROUP_CONNECTED",
      sets,
      setsNeeded: setsToConnect(arms, request.boxesPerSet.max),
    };
  }
  const best = sorted[0]!;
  return {
    ok: true,
    arms,
    level: request.level,
    difference: request.difference,
    margin: request.margin,
    deviations: request.deviations,
    deviationsFrom: request.deviationsFrom,
    seed: request.seed,
    designs: withSimulation(sorted, request, context),
    advice: best.dealt.flatMap((dealt, g) =>
      adviceFor(best.design.groups[g]!, dealt, best.candidate.boxesPerSet, request, aims),
    ),
    ordinal: ordinalFigures(request),
    methods: {
      difference: "noncentral-t-growers-minus-1",
      anyDifference: "noncentral-F",
      equivalence: "two-one-sided-t",
      cleanTake: "simulated-clustered-t",
    },
  };
}

type SharedContext = Omit<FiguresContext, "group" | "simulated">;

function tryCandidates(request: PlannerRequest, arms: number, context: SharedContext): Tried[] {
  const { min, max } = request.boxesPerSet;
  const sizes = Array.from({ length: max - min + 1 }, (_, i) => max - i);
  return sizes
    .flatMap((boxes) => candidatesFor(arms, boxes, request.seed))
    .map((candidate) => {
      const dealt = request.groups.map((group) => dealtDesign(candidate, group, arms, request));
      const figures = (of: DealtDesign, group: string | null) =>
        figuresOf(of, { ...context, group, simulated: NOTHING_SIMULATED });
      const design: PlannerDesign = {
        kind: candidate.kind,
        boxesPerSet: candidate.boxesPerSet,
        period: candidate.period,
        firstSets: dealt[0]!.setsByGrower.flat().slice(0, SHOWN_SETS),
        groups: dealt.map((of, g) => figures(of, request.groups[g]!.code)),
        together: dealt.length > 1 ? figures(joined(dealt), null) : null,
      };
      return { candidate, dealt, design };
    });
}

/**
 * More groups connected first; then higher mean power over groups, to whole per cents, and that of the worst pair; then
 * the simpler kind and fewer boxes.
 */
function byPower(a: Tried, b: Tried): number {
  return (
    connectedGroups(b.design) - connectedGroups(a.design) ||
    wholePercent(b.design, "power") - wholePercent(a.design, "power") ||
    wholePercent(b.design, "worstPairPower") - wholePercent(a.design, "worstPairPower") ||
    DESIGN_KINDS.indexOf(a.design.kind) - DESIGN_KINDS.indexOf(b.design.kind) ||
    a.design.boxesPerSet - b.design.boxesPerSet
  );
}

function connectedGroups({ groups }: PlannerDesign): number {
  return groups.filter(({ connected }) => connected).length;
}

function wholePercent({ groups }: PlannerDesign, of: "power" | "worstPairPower"): number {
  const sum = groups.reduce((total, { growth }) => total + (growth?.[of] ?? 0), 0);
  return Math.round((100 * sum) / groups.length);
}

function withSimulation(
  sorted: readonly Tried[],
  request: PlannerRequest,
  context: SharedContext,
): PlannerDesign[] {
  return sorted.map(({ dealt, design }, place) => {
    if (place >= SIMULATED_DESIGNS) return design;
    const groups = dealt.map((of, g) => {
      const group = request.groups[g]!.code;
      const seed = `${request.seed}/${design.kind}/${design.boxesPerSet}/${of.growers}/${of.sets}`;
      const simulated = simulate(of, design, request, seed);
      return figuresOf(of, { ...context, group, simulated });
    });
    return { ...design, groups };
  });
}

function simulate(
  dealt: DealtDesign,
  design: PlannerDesign,
  request: PlannerRequest,
  seed: string,
): Simulated {
  const { setsByGrower, arms, information, growers } = dealt;
  const closedFormOnly = design.kind === "complete" && request.cleanTake === null;
  if (growers < 2 || closedFormOnly) return NOTHING_SIMULATED;
  const scale = growers / setsByGrower.length;
  const pairs = pairVariances(
    information.map((x) => x / scale),
    arms,
  );
  if (pairs === null) return NOTHING_SIMULATED;
  const boxes = setsByGrower.flat(2).length;
  const runs = Math.floor(SIMULATED_BOXES / (boxes * SIMULATED_DESIGNS * request.groups.length));
  const simulated = simulateArrivals(
    {
      setsByGrower,
      arms,
      pairs,
      deviations: request.deviations,
      difference: request.difference,
      cleanTake: request.cleanTake,
      alpha: 1 - request.level,
      runs: Math.min(RUNS.max, Math.max(RUNS.min, runs)),
    },
    seededSource(seed),
  );
  return design.kind === "complete" ? { ...simulated, growth: null } : simulated;
}

function ordinalFigures({ ordinal, level }: PlannerRequest): PlannerResult["ordinal"] {
  if (ordinal === undefined) return null;
  return ([0.8, 0.9] as const).map((power) => ({
    power,
    boxesPerArm: ordinalBoxesPerArm(ordinal.shares, ordinal.oddsRatio, power, 1 - level),
  }));
}
