import { ARMS_PER_TRIAL } from "@/shared/schemas/plan";
import type { PlannerRequest } from "@/shared/schemas/planner";
import type { PlannerAdvice, PlannerFigures } from "@/shared/schemas/planner-result";
import { candidatesFor } from "./candidates";
import { type DealtDesign, dealtDesign } from "./dealt-design";
import { growerInformation } from "./grower-information";
import { pairVariances } from "./information";
import { type Aims, pairPowerAt, prospectOf } from "./prospect";

/** The power a plan should reach; common practice, no source. */
const WANTED_POWER = 0.8;
/** With fewer growers than this in a group every interval is rough. */
const FEW_GROWERS = 10;
/** Spreading sets over more growers is worth saying when it gains so much power. */
const WORTH_SAYING = 0.05;

/** What follows from the figures of the chosen design in one group. */
export function adviceFor(
  figures: PlannerFigures,
  dealt: DealtDesign,
  boxesPerSet: number,
  request: PlannerRequest,
  aims: Aims,
): PlannerAdvice[] {
  const group = figures.group ?? "";
  const { growth, growers, sets } = figures;
  const few: PlannerAdvice[] = growers < FEW_GROWERS ? [{ code: "FEW_GROWERS", group, growers }] : [];
  if (growth === null) {
    const setsNeeded = setsToConnect(dealt.arms, boxesPerSet);
    return [{ code: "NOT_CONNECTED", group, sets, setsNeeded }, ...few];
  }
  return [
    ...powerAdvice(figures, dealt, boxesPerSet, request, aims),
    ...few,
    ...spreadAdvice(figures, dealt, request, aims),
    ...separabilityAdvice(figures, request),
    ...equivalenceAdvice(figures, request),
  ];
}

/** The fewest sets of k that can join v arms: each joins at most k − 1 more. */
export function setsToConnect(arms: number, boxesPerSet: number): number {
  return Math.ceil((arms - 1) / (boxesPerSet - 1));
}

function powerAdvice(
  figures: PlannerFigures,
  dealt: DealtDesign,
  boxesPerSet: number,
  request: PlannerRequest,
  aims: Aims,
): PlannerAdvice[] {
  const group = figures.group ?? "";
  const { power, needed } = figures.growth!;
  const { growers } = figures;
  if (power >= WANTED_POWER) return [{ code: "ENOUGH", group, power }];
  const growersThatDo = needed[0]?.growers ?? null;
  const more: PlannerAdvice = { code: "MORE_GROWERS", group, growers, growersThatDo };
  const armsThatDo = mostArms(dealt, boxesPerSet, request, aims);
  if (armsThatDo === null) return [more];
  return [{ code: "FEWER_ARMS", group, arms: dealt.arms, growers, armsThatDo }, more];
}

/** The most arms, fewer than planned, with which the same growers, sets and boxes reach the wanted power. */
function mostArms(
  dealt: DealtDesign,
  boxesPerSet: number,
  request: PlannerRequest,
  aims: Aims,
): number | null {
  const group = {
    code: "fewer",
    growers: dealt.growers,
    setsPerGrower: Math.round(dealt.sets / dealt.growers),
  };
  const reaches = (arms: number): boolean => {
    const candidate = candidatesFor(arms, boxesPerSet, request.seed).at(-1)!;
    const fewer = dealtDesign(candidate, group, arms, request);
    const pairs = pairVariances(fewer.withGrowers, arms);
    if (pairs === null) return false;
    return pairPowerAt(prospectOf(fewer, pairs.mean), fewer.growers, aims) >= WANTED_POWER;
  };
  // Power falls with every further arm, so halving finds the last that does.
  let low = ARMS_PER_TRIAL.min - 1;
  let high = dealt.arms;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (reaches(middle)) low = middle;
    else high = middle;
  }
  return low >= ARMS_PER_TRIAL.min ? low : null;
}

/** The same sets, each from a grower of its own. */
function spreadAdvice(
  figures: PlannerFigures,
  dealt: DealtDesign,
  { deviations }: PlannerRequest,
  aims: Aims,
): PlannerAdvice[] {
  if (figures.setsPerGrower <= 1) return [];
  const { growerArm, residual } = deviations;
  const looked = dealt.setsByGrower.flat().map((set) => [set]);
  const scale = dealt.growers / dealt.setsByGrower.length;
  const variances = { growerArm: growerArm ** 2, residual: residual ** 2 };
  const withGrowers = growerInformation(looked, dealt.arms, variances).map((x) => x * scale);
  const pairs = pairVariances(withGrowers, dealt.arms);
  if (pairs === null) return [];
  const spread = prospectOf({ ...dealt, growers: dealt.sets }, pairs.mean);
  const powerInstead = pairPowerAt(spread, dealt.sets, aims);
  const { power } = figures.growth!;
  if (powerInstead < power + WORTH_SAYING) return [];
  const group = figures.group ?? "";
  return [
    {
      code: "GROWERS_BEFORE_SETS",
      group,
      power,
      growersInstead: dealt.sets,
      setsInstead: 1,
      powerInstead,
    },
  ];
}

function separabilityAdvice(figures: PlannerFigures, { meetAgainShare }: PlannerRequest): PlannerAdvice[] {
  const { separable, shareNeeded } = figures.separability;
  const group = figures.group ?? "";
  if (separable) return [];
  if (shareNeeded === null) {
    return [{ code: "NOT_SEPARABLE", group, setsPerGrower: figures.setsPerGrower }];
  }
  return [{ code: "MEET_AGAIN", group, share: shareNeeded, planned: meetAgainShare }];
}

function equivalenceAdvice(figures: PlannerFigures, { margin }: PlannerRequest): PlannerAdvice[] {
  const { equivalencePower: power, equivalenceNeeded } = figures.growth!;
  if (power >= WANTED_POWER) return [];
  const growersThatDo = equivalenceNeeded[0]?.growers ?? null;
  return [{ code: "EQUIVALENCE_FAR", group: figures.group ?? "", margin, power, growersThatDo }];
}
