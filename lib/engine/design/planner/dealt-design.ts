import type { PlannerRequest } from "@/shared/schemas/planner";
import type { Candidate } from "./candidates";
import { growerInformation } from "./grower-information";
import { dealSets, ownDifferences } from "./grower-sets";
import { informationOf, replicationOf, type SetOfArms, type Square } from "./information";
import { type RepeatInformation, repeatInformation, sumOfRepeats } from "./separability";

/** Sets looked at for one group; more growers than they make count as so many times the same ones. */
const MOST_SETS = 600;
/** Growers dealt to as if all met recipes again: the first have the most sets to choose from. */
const ALWAYS_LOOKED = 8;

/** A design dealt to the growers of a group, and what those growers tell by it. Parts of groups add up. */
export interface DealtDesign {
  readonly arms: number;
  readonly growers: number;
  readonly sets: number;
  readonly boxes: number;
  readonly replication: readonly number[];
  /** Of all growers, within sets, per unit of residual variance. */
  readonly information: Square;
  /** The same with grower × arm counted, in units of growth. */
  readonly withGrowers: Square;
  /** Degrees of freedom of the growers' own differences between arms. */
  readonly armDf: number;
  readonly repeats: RepeatInformation;
  /** The growers looked at, each of whom stands for growers/length. */
  readonly setsByGrower: readonly (readonly SetOfArms[])[];
}

/** Deals a candidate's sets to the growers of one group. */
export function dealtDesign(
  candidate: Candidate,
  { growers, setsPerGrower }: PlannerRequest["groups"][number],
  arms: number,
  { deviations, meetAgainShare }: Pick<PlannerRequest, "deviations" | "meetAgainShare">,
): DealtDesign {
  const looked = Math.min(growers, Math.max(2, Math.floor(MOST_SETS / setsPerGrower)));
  const scale = growers / looked;
  const sets = candidate.sets(looked * setsPerGrower);
  const deal = (share: number, count: number) => dealSets(sets, count, setsPerGrower, share);
  const byItself = deal(0, looked);
  const planned = meetAgainShare === 0 ? byItself : deal(meetAgainShare, looked);
  const always = deal(1, Math.min(looked, ALWAYS_LOOKED));
  const variances = { growerArm: deviations.growerArm ** 2, residual: deviations.residual ** 2 };
  return {
    arms,
    growers,
    sets: growers * setsPerGrower,
    boxes: growers * setsPerGrower * candidate.boxesPerSet,
    replication: replicationOf(sets, arms).map((r) => r * scale),
    information: informationOf(sets, arms).map((x) => x * scale),
    withGrowers: growerInformation(planned, arms, variances).map((x) => x * scale),
    armDf: ownDifferences(planned) * scale,
    repeats: repeatInformation({ planned, byItself, always }, growers, deviations),
    setsByGrower: planned,
  };
}

/** All groups as one, recipes doing the same in each; growers looked at are left out, as they stand for unlike numbers. */
export function joined(parts: readonly DealtDesign[]): DealtDesign {
  const sum = (of: (part: DealtDesign) => number) => parts.reduce((total, part) => total + of(part), 0);
  const matrix = (of: (part: DealtDesign) => Square) =>
    of(parts[0]!).map((_, at) => sum((part) => of(part)[at]!));
  return {
    arms: parts[0]!.arms,
    growers: sum((part) => part.growers),
    sets: sum((part) => part.sets),
    boxes: sum((part) => part.boxes),
    replication: parts[0]!.replication.map((_, arm) => sum((part) => part.replication[arm]!)),
    information: matrix((part) => part.information),
    withGrowers: matrix((part) => part.withGrowers),
    armDf: sum((part) => part.armDf),
    repeats: sumOfRepeats(parts.map(({ repeats }) => repeats)),
    setsByGrower: [],
  };
}
