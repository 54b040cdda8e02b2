import type { Placement } from "@/shared/schemas/draw";
import type { RandomSource } from "../random/source";
import { cookableArms, type DrawDesign, type DrawHistory, type DrawRule, drawRefusal } from "./draw";
import { connectedParts, gainFunction, precisionAfter } from "./information";

/** What a rule weighs; see tests/simulation/draw-figures.ts for what other settings would do. */
export interface RuleSettings {
  /** Subsets looked at for each of the two sets. More make the design better and the draw easier to foresee. */
  readonly candidates: number;
  /** Of 100 draws so many take the better set, the others one that shares as little with it as can be. */
  readonly betterPercent: number;
  /** What comparisons within the region weigh beside those of the whole climate group. */
  readonly regionWeight: number;
}

export const RULE_2_SETTINGS: RuleSettings = { candidates: 48, betterPercent: 75, regionWeight: 0.1 };

/** Gains that differ by less than this share are equal: rounding may not decide. */
const TIE = 1e-9;

/**
 * Rule `grainlot-draw/2`: the more informative of two sets, or now and then the other. Once in use it never changes.
 *
 * Arms are counted from 0 in the plan's order; their names decide nothing. What an abandoned outing gives back is
 * kept as far as boxes and grains permit, in the order of its boxes. Then every cookable arm gets the same number of
 * boxes while whole rounds fit. For the boxes left, subsets of the arms next in turn are picked by chance, and the
 * one that lowers the average variance of the pairwise differences most is set aside; once more so, from subsets
 * that avoid its arms; and by chance one of the two is taken. Every subset prefers arms of parts not yet joined in
 * the climate group, so that it is connected as soon as the grains allow, and next arms new to the household: not
 * when by the plan's chance this household is to meet one again, nor once fewer than twice as many new arms are
 * left as are wanted, for then it could tell its next set from its last. Last, the arms are shuffled over the
 * positions, and a staged fetch day is drawn or given back.
 */
export const mostInformative: DrawRule = informationRule(RULE_2_SETTINGS);

/** The rule with other settings, for simulations to weigh; draws are made by `mostInformative`. */
export function informationRule(settings: RuleSettings): DrawRule {
  return (inputs, random, history, design) => {
    const refusal = drawRefusal(inputs);
    if (refusal !== null) return refusal;
    const codes = inputs.arms.map(({ code }) => code);
    const cookable = cookableArms(inputs.arms, inputs.grainsAtHand).map(({ code }) => codes.indexOf(code));
    const met = codes.map((code) => (history.metByHousehold.get(code) ?? 0) > 0);
    const meetsAgain =
      history.returned === null && cookable.some((arm) => met[arm]) && random.unit() < design.meetAgainShare;

    const kept = keptOf(history.returned?.result ?? [], codes, cookable, inputs.boxes);
    const { settled, pool } = wholeRounds(kept, cookable, inputs.boxes);
    const wanted = inputs.boxes - settled.length;
    const parts = connectedParts(history.group, codes.length);
    const choice = { settled, pool, wanted, met, meetsAgain, parts };
    const block = wanted === 0 ? settled : informativeBlock(random, settings, history, choice);

    const placements = random.shuffle(block).map((arm, at) => ({ position: at + 1, arm: codes[arm]! }));
    const fetchAfterDays = history.returned?.fetchAfterDays ?? fetchDay(random, design);
    return fetchAfterDays === undefined ? { ok: true, placements } : { ok: true, placements, fetchAfterDays };
  };
}

/** Everything by arm is counted from 0 in the plan's order. */
interface Choice {
  /** Arms of the boxes already settled. */
  readonly settled: readonly number[];
  /** Arms next in turn, more of them than are wanted. */
  readonly pool: readonly number[];
  readonly wanted: number;
  /** By arm: whether the household has had it. */
  readonly met: readonly boolean[];
  readonly meetsAgain: boolean;
  /** By arm: the part of the climate group's arms that it is joined with. */
  readonly parts: readonly number[];
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
): { settled: number[]; pool: number[] } {
  const settled = [...kept];
  for (;;) {
    const times = cookable.map((arm) => timesIn(settled, arm));
    const fewest = Math.min(...times);
    const pool = cookable.filter((_, at) => times[at] === fewest);
    if (settled.length + pool.length > boxes) return { settled, pool };
    settled.push(...pool);
  }
}

function timesIn(block: readonly number[], arm: number): number {
  return block.filter((other) => other === arm).length;
}

/** The settled boxes and the better of two subsets, or by chance the other. */
function informativeBlock(
  random: RandomSource,
  { candidates, betterPercent, regionWeight }: RuleSettings,
  history: DrawHistory,
  choice: Choice,
): readonly number[] {
  const v = choice.parts.length;
  const group = precisionAfter(history.group, v);
  const region = precisionAfter(history.region, v);
  const gainInGroup = gainFunction(group, v, choice.settled.length + choice.wanted);
  const gainInRegion = gainFunction(region, v, choice.settled.length + choice.wanted);
  const bestWithout = (avoided: readonly number[]): readonly number[] => {
    const nextSubset = subsetsOf(random, choice, avoided);
    let best: readonly number[] = [];
    let bestGain = 0;
    for (let tried = 0; tried < candidates; tried++) {
      const candidate = [...choice.settled, ...nextSubset()];
      const gain = gainInGroup(candidate) + regionWeight * gainInRegion(candidate);
      // Of equals the one picked first stays, which is as good as by lot.
      if (tried > 0 && gain <= bestGain * (1 + TIE)) continue;
      best = candidate;
      bestGain = gain;
    }
    return best;
  };
  const better = bestWithout([]);
  const other = bestWithout(better.slice(choice.settled.length));
  return random.below(100) < betterPercent ? better : other;
}

/**
 * Random subsets of the pool, another at each call. Each pick is by chance among the arms that join a further part
 * to the block, of these among the arms new to the household, and of these among the arms not to be avoided, as
 * far as there are any.
 */
function subsetsOf(
  random: RandomSource,
  { settled, pool, wanted, met, meetsAgain, parts }: Choice,
  avoided: readonly number[],
): () => number[] {
  const prefersNew = !meetsAgain && pool.filter((arm) => !met[arm]).length >= 2 * wanted;
  const burdens = parts.map((_, arm) => (met[arm] && prefersNew ? 2 : 0) + (avoided.includes(arm) ? 1 : 0));
  const metInPool = meetsAgain && !settled.some((arm) => met[arm]) ? pool.filter((arm) => met[arm]) : [];
  const joined = new Uint8Array(parts.length);
  const burden = (arm: number) => burdens[arm]! + 4 * joined[parts[arm]!]!;

  const pickOf = (arms: readonly number[]): number => {
    let least = Number.POSITIVE_INFINITY;
    let equals = 0;
    for (const arm of arms) {
      if (burden(arm) > least) continue;
      equals = burden(arm) === least ? equals + 1 : 1;
      least = burden(arm);
    }
    let skipped = random.below(equals);
    return arms.find((arm) => burden(arm) === least && skipped-- === 0)!;
  };

  return () => {
    joined.fill(0);
    for (const arm of settled) joined[parts[arm]!] = 1;
    const left = [...pool];
    const taken: number[] = [];
    while (taken.length < wanted) {
      const arm = pickOf(taken.length === 0 && metInPool.length > 0 ? metInPool : left);
      taken.push(arm);
      left.splice(left.indexOf(arm), 1);
      joined[parts[arm]!] = 1;
    }
    return taken;
  };
}

function fetchDay(random: RandomSource, { fetchAfterDays }: DrawDesign): number | undefined {
  return fetchAfterDays === null ? undefined : fetchAfterDays[random.below(fetchAfterDays.length)];
}
