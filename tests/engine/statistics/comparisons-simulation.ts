import { seededSource } from "@/lib/engine/random/source";
import { bestChances, chanceDimensions } from "@/lib/engine/statistics/best-chance";
import { compareWithBest } from "@/lib/engine/statistics/best-comparisons";
import { crossoverTest } from "@/lib/engine/statistics/crossover";
import { compareWithReference } from "@/lib/engine/statistics/dunnett";
import { normalPoints } from "@/lib/engine/statistics/normal-points";
import { tukeyKramer } from "@/lib/engine/statistics/tukey-kramer";
import { type SimulatedShare, shareOver } from "./pool-simulation";
import { normalsFrom } from "./simulated-trial";

/** A one-way layout of unequal groups: boxes of SD 1 around each arm's mean. */
export interface UnequalGroups {
  readonly boxes: readonly number[];
  readonly means: readonly number[];
}

export interface FamilyCoverage {
  /** Share of trials in which all intervals of the family hold their truths. */
  readonly tukey: SimulatedShare;
  readonly dunnett: SimulatedShare;
  readonly hsu: SimulatedShare;
  /** Share of trials in which the best arm, the first where several are, was said not to be. */
  readonly bestExcluded: SimulatedShare;
}

export function simulateFamilies(groups: UnequalGroups, runs: number, seed: string): FamilyCoverage {
  const { means } = groups;
  const held = { tukey: [] as number[], dunnett: [] as number[], hsu: [] as number[], out: [] as number[] };
  const best = means.indexOf(Math.max(...means));
  const options = { level: 0.95, points: normalPoints(means.length, seededSource(`${seed}/points`)) };
  for (let run = 0; run < runs; run++) {
    const fit = fitGroups(groups, normalsFrom(seededSource(`${seed}/${run}`)));
    const many = compareWithReference(fit, { ...options, reference: 0 });
    held.dunnett.push(Number(many.comparisons.every(({ arm, ...at }) => holds(at, means[arm]! - means[0]!))));
    const hsu = compareWithBest(fit, options);
    const truth = means.map((mean, i) => mean - Math.max(...means.filter((_, j) => j !== i)));
    held.hsu.push(Number(hsu.every((at) => holds(at, truth[at.arm]!))));
    held.out.push(Number(!hsu[best]!.mayBeBest));
    held.tukey.push(Number(allPairsHold(fit, means)));
  }
  return {
    tukey: shareOver(held.tukey),
    dunnett: shareOver(held.dunnett),
    hsu: shareOver(held.hsu),
    bestExcluded: shareOver(held.out),
  };
}

type Fit = ReturnType<typeof fitGroups>;

function fitGroups({ boxes, means }: UnequalGroups, normal: () => number) {
  const data = means.map((mean, a) => Array.from({ length: boxes[a]! }, () => mean + normal()));
  const estimates = data.map((own) => own.reduce((sum, x) => sum + x, 0) / own.length);
  const df = boxes.reduce((sum, n) => sum + n, 0) - boxes.length;
  const squares = data.reduce(
    (sum, own, a) => sum + own.reduce((part, x) => part + (x - estimates[a]!) ** 2, 0),
    0,
  );
  const covariance = boxes.map((n, a) => boxes.map((_, b) => (a === b ? squares / df / n : 0)));
  return { estimates, covariance, df };
}

function allPairsHold({ estimates, covariance, df }: Fit, means: readonly number[]): boolean {
  return estimates.every((first, a) =>
    estimates.slice(0, a).every((second, b) => {
      const se = Math.sqrt(covariance[a]![a]! + covariance[b]![b]!);
      return holds(
        tukeyKramer({ difference: first - second, se, df }, means.length, 0.95),
        means[a]! - means[b]!,
      );
    }),
  );
}

/** Monte Carlo error of a critical value can leave an exact bound a hair off. */
function holds({ lower, upper }: { readonly lower: number; readonly upper: number }, truth: number): boolean {
  return lower <= truth && truth <= upper;
}

export interface CalibrationBin {
  /** Mean chance claimed, and the share that came true, of the arms claimed within the bin. */
  readonly claimed: number;
  readonly true: number;
  readonly arms: number;
  /** Standard error of `true`. */
  readonly monteCarloError: number;
}

export interface BestCalibration {
  readonly bins: readonly CalibrationBin[];
  /** Of the arm that leads: what is claimed for it, and how often it is the best. */
  readonly leader: { readonly claimed: number; readonly true: number; readonly monteCarloError: number };
}

/**
 * Chances to be the best against what is: arm effects of SD .1–.5 (drawn evenly per trial), unequal groups, the
 * error variance estimated.
 */
export function simulateBestCalibration(runs: number, seed: string): BestCalibration {
  const claims: { claimed: number; hit: number }[] = [];
  const leaders: { claimed: number; hit: number }[] = [];
  const mostArms = 8;
  const points = normalPoints(chanceDimensions(mostArms), seededSource(`${seed}/points`));
  for (let run = 0; run < runs; run++) {
    const source = seededSource(`${seed}/${run}`);
    const normal = normalsFrom(source);
    const tau = 0.1 + 0.4 * source.unit();
    const k = 3 + source.below(mostArms - 2);
    const means = Array.from({ length: k }, () => 2 + tau * normal());
    const boxes = means.map(() => 4 + source.below(30));
    const none = means.map(() => 0);
    const { ofMean } = bestChances(fitGroups({ boxes, means }, normal), {
      priorScale: 0.5,
      nextSet: { shifts: none, variances: none },
      points,
    });
    const best = means.indexOf(Math.max(...means));
    const own = ofMean.chances.map((claimed, a) => ({ claimed, hit: Number(a === best) }));
    claims.push(...own);
    leaders.push(own.reduce((top, arm) => (arm.claimed > top.claimed ? arm : top)));
  }
  const bins = Array.from({ length: 10 }, (_, bin) =>
    binOf(claims.filter(({ claimed }) => Math.min(9, Math.floor(claimed * 10)) === bin)),
  ).filter(({ arms }) => arms > 0);
  return { bins, leader: binOf(leaders) };
}

function binOf(claims: readonly { readonly claimed: number; readonly hit: number }[]): CalibrationBin {
  const arms = claims.length;
  const claimed = claims.reduce((sum, claim) => sum + claim.claimed, 0) / arms;
  const share = claims.reduce((sum, { hit }) => sum + hit, 0) / arms;
  // Of the claim, so that a bin in which all or none came true has an error too.
  return { claimed, true: share, arms, monteCarloError: Math.sqrt((claimed * (1 - claimed)) / arms) };
}

/** How often Gail & Simon's test says "crossover" at 5 % of one pair's true differences by band; SEs unequal, t errors. */
export function simulateCrossover(truths: readonly number[], runs: number, seed: string): SimulatedShare {
  const found: number[] = [];
  for (let run = 0; run < runs; run++) {
    const source = seededSource(`${seed}/${run}`);
    const normal = normalsFrom(source);
    const differences = truths.map((truth, b) => {
      const [sd, df] = [0.2 + 0.1 * b, 6 + 5 * b];
      const s2 = Array.from({ length: df }, () => normal() ** 2).reduce((sum, x) => sum + x, 0) / df;
      return { difference: truth + sd * normal(), se: sd * Math.sqrt(s2), df };
    });
    found.push(Number(crossoverTest(differences)!.p <= 0.05));
  }
  return shareOver(found);
}
