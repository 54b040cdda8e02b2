import type { DrawInputs, Placement } from "@/shared/schemas/draw";
import type { RandomSource } from "../random/source";
import { cookableArms, type DrawDesign, type DrawHistory, type DrawResult, drawRefusal } from "./draw";
import { connectedParts, gainFrom, type Precision, precisionAfter } from "./information";

/** Candidate sets looked at in a draw. More make the design better and the draw easier to foresee. */
const CANDIDATES = 12;
/** What the region's own comparisons weigh beside the whole climate group's. */
const REGION_WEIGHT = 1 / 4;
/** Gains that differ by less than this share are equal: rounding may not decide. */
const TIE = 1e-9;

/**
 * Rule `grainlot-draw/2`: the most informative of a few sets picked by chance. It never changes once in use.
 *
 * Arms are counted from 0 in the plan's order; their names decide nothing. A set given back by an abandoned outing
 * is kept as far as boxes and grains permit, in its order. Every cookable arm is then filled up to the same number
 * of boxes while whole rounds fit. For the boxes left, `CANDIDATES` subsets of the arms next in turn are picked by
 * chance, and of these the one is taken that lowers the average variance of the pairwise differences most. Each
 * subset prefers arms of parts not yet joined in the climate group, so that it becomes connected as soon as
 * it can be, and then arms new to the household, unless (with the plan's chance) this household is to meet one
 * again. Last, the arms are shuffled over the positions, and a staged fetch day is drawn.
 */
export function mostInformative(
  inputs: DrawInputs,
  random: RandomSource,
  history: DrawHistory,
  design: DrawDesign,
): DrawResult {
  const refusal = drawRefusal(inputs);
  if (refusal !== null) return refusal;
  const codes = inputs.arms.map(({ code }) => code);
  const cookable = cookableArms(inputs.arms, inputs.grainsAtHand).map(({ code }) => codes.indexOf(code));
  const met = new Set(
    codes.flatMap((code, arm) => ((history.metByHousehold.get(code) ?? 0) > 0 ? [arm] : [])),
  );
  const meetsAgain =
    history.returned === null &&
    cookable.some((arm) => met.has(arm)) &&
    random.unit() < design.meetAgainShare;

  const kept = keptOf(history.returned?.result ?? [], codes, cookable, inputs.boxes);
  const { block, pool } = wholeRounds(kept, cookable, inputs.boxes);
  const wanted = inputs.boxes - block.length;
  const taken =
    wanted === 0 ? block : bestOf(random, inputs, history, { block, pool, wanted, met, meetsAgain });
  const placements = random.shuffle(taken).map((arm, index) => ({ position: index + 1, arm: codes[arm]! }));
  const fetchAfterDays = history.returned?.fetchAfterDays ?? fetchDay(random, design);
  return fetchAfterDays === undefined ? { ok: true, placements } : { ok: true, placements, fetchAfterDays };
}

interface Choice {
  /** Arms of the boxes already settled. */
  readonly block: readonly number[];
  /** Arms next in turn, more of them than are wanted. */
  readonly pool: readonly number[];
  readonly wanted: number;
  readonly met: ReadonlySet<number>;
  readonly meetsAgain: boolean;
}

/** The boxes of a returned set that can be had again, lowest positions first, no arm oftener than boxes demand. */
function keptOf(
  returned: readonly Placement[],
  codes: readonly string[],
  cookable: readonly number[],
  boxes: number,
): number[] {
  const most = Math.ceil(boxes / cookable.length);
  const kept: number[] = [];
  for (const { arm: code } of [...returned].sort((a, b) => a.position - b.position)) {
    const arm = codes.indexOf(code);
    if (kept.length < boxes && cookable.includes(arm) && timesIn(kept, arm) < most) kept.push(arm);
  }
  return kept;
}

/** Adds the least used cookable arms, all at once, while there are boxes for all of them. */
function wholeRounds(
  kept: readonly number[],
  cookable: readonly number[],
  boxes: number,
): { block: number[]; pool: number[] } {
  const block = [...kept];
  for (;;) {
    const times = cookable.map((arm) => timesIn(block, arm));
    const fewest = Math.min(...times);
    const pool = cookable.filter((_, at) => times[at] === fewest);
    if (block.length + pool.length > boxes) return { block, pool };
    block.push(...pool);
  }
}

function timesIn(block: readonly number[], arm: number): number {
  return block.filter((other) => other === arm).length;
}

/** The most informative of the candidates; of equals the one picked first. */
function bestOf(random: RandomSource, inputs: DrawInputs, history: DrawHistory, choice: Choice): number[] {
  const v = inputs.arms.length;
  const parts = connectedParts(history.group, v);
  const group = precisionAfter(history.group, v);
  const region = precisionAfter(history.region, v);
  let best: number[] = [];
  let bestGain = 0;
  for (let tried = 0; tried < CANDIDATES; tried++) {
    const candidate = [...choice.block, ...candidateOf(random, choice, parts)];
    const gain = relativeGain(group, v, candidate) + REGION_WEIGHT * relativeGain(region, v, candidate);
    if (tried > 0 && gain <= bestGain * (1 + TIE)) continue;
    best = candidate;
    bestGain = gain;
  }
  return best;
}

/** The share of the spread that a block removes, times the draws, which makes it alike for small and large groups. */
function relativeGain(precision: Precision, armCount: number, block: readonly number[]): number {
  return ((precision.draws + 1) * gainFrom(precision, armCount, block)) / precision.spread;
}

/** A random subset of the pool that joins as many parts as it can and then avoids, or seeks, arms met before. */
function candidateOf(random: RandomSource, choice: Choice, parts: readonly number[]): number[] {
  const { block, pool, wanted, met, meetsAgain } = choice;
  const order = random.shuffle(pool);
  const joined = new Set(block.map((arm) => parts[arm]!));
  const taken: number[] = [];
  const take = (arm: number) => {
    taken.push(arm);
    joined.add(parts[arm]!);
    order.splice(order.indexOf(arm), 1);
  };
  const again =
    meetsAgain && !block.some((arm) => met.has(arm)) ? order.find((arm) => met.has(arm)) : undefined;
  if (again !== undefined) take(again);
  while (taken.length < wanted) {
    const burden = (arm: number) => (joined.has(parts[arm]!) ? 2 : 0) + (!meetsAgain && met.has(arm) ? 1 : 0);
    take(order.reduce((least, arm) => (burden(arm) < burden(least) ? arm : least)));
  }
  return taken;
}

function fetchDay(random: RandomSource, { fetchAfterDays }: DrawDesign): number | undefined {
  return fetchAfterDays === null ? undefined : fetchAfterDays[random.below(fetchAfterDays.length)];
}
