import type { DrawDesign, DrawHistory, DrawRule } from "@/lib/engine/design/draw";
import { EarlierDraws } from "@/lib/engine/design/history";
import type { RandomSource } from "@/lib/engine/random/source";
import type { DrawInputs } from "@/shared/schemas/draw";

/** Arrivals are invented; six grains × two water ratios, as the figures are asked for. */
const GRAINS = ["g1", "g2", "g3", "g4", "g5", "g6"];
export const ARMS = GRAINS.flatMap((grain) => [1, 2].map((ratio) => ({ code: `${grain}-${ratio}`, grain })));
export const GROUPS = ["c1", "c2", "c3", "c4", "c5"];
export const OUTINGS_PER_GROUP = 40;
const BOXES = 3;
const SETS_PER_HOUSEHOLD = 2;
export const REGIONS = ["r1", "r2"];
export const DESIGN: DrawDesign = { meetAgainShare: 0.3, fetchAfterDays: null };

/** A set of boxes that somebody asks recipes for. */
export type Arrival = Pick<
  DrawInputs,
  "outingId" | "household" | "climateGroup" | "region" | "boxes" | "grainsAtHand"
>;

/** The outings of one trial in random order of arrival; a third of the households lack two grains. */
export function arrivals(random: RandomSource): Arrival[] {
  const outings = GROUPS.flatMap((climateGroup) => {
    const households = Math.ceil(OUTINGS_PER_GROUP / SETS_PER_HOUSEHOLD);
    const grains = Array.from({ length: households }, () =>
      random.below(3) === 0 ? random.shuffle(GRAINS).slice(2) : GRAINS,
    );
    return Array.from({ length: OUTINGS_PER_GROUP }, (_, i) => {
      const home = i % households;
      return {
        outingId: `${climateGroup}/${i}`,
        household: `${climateGroup}/${home}`,
        climateGroup,
        region: REGIONS[home % REGIONS.length]!,
        boxes: BOXES,
        grainsAtHand: grains[home]!,
      };
    });
  });
  return random.shuffle(outings);
}

/** What was drawn for an arrival: arms counted from 0, one per box. */
export type Block = readonly number[];

/**
 * Draws one trial by a rule.
 * @param nextSource gives each draw its random numbers.
 * @param watch is told of each draw before it is kept.
 */
export function drawTrial(
  rule: DrawRule,
  outings: readonly Arrival[],
  nextSource: () => RandomSource,
  watch: (inputs: DrawInputs, history: DrawHistory, block: Block) => void = () => {},
): Block[] {
  const codes = ARMS.map(({ code }) => code);
  const earlier = new EarlierDraws(codes);
  return outings.map((outing) => {
    const before = earlier.drawnBefore(outing.climateGroup);
    const arms = ARMS.map((arm) => ({ ...arm, drawnBefore: before.get(arm.code) ?? 0 }));
    const inputs: DrawInputs = { ...outing, arms, timeHash: "" };
    const history = earlier.of(inputs);
    const block = blockDrawn(rule, inputs, nextSource(), history);
    watch(inputs, history, block);
    const result = block.map((arm, i) => ({ position: i + 1, arm: codes[arm]! }));
    earlier.add({ inputs, result });
    return block;
  });
}

export function blockDrawn(
  rule: DrawRule,
  inputs: DrawInputs,
  random: RandomSource,
  history: DrawHistory,
): Block {
  const drawn = rule(inputs, random, history, DESIGN);
  if (!drawn.ok) throw new Error(`Refused: ${drawn.reason}.`);
  return drawn.placements.map(({ arm }) => ARMS.findIndex(({ code }) => code === arm));
}
