import type { DrawHistory, DrawResult } from "@/lib/engine/design/draw";
import { emptyTally } from "@/lib/engine/design/tally";
import { type DrawInputs, drawInputsSchema } from "@/shared/schemas/draw";

const GRAINS = ["barley-pearl", "rye", "oats", "millet", "sorghum", "teff"];

/** Made-up inputs: `drawnBefore` gives one arm each, two arms to a grain; all grains at hand unless said. */
export function someInputs(
  given: { drawnBefore: readonly number[]; outing?: number } & Partial<Omit<DrawInputs, "arms" | "outingId">>,
): DrawInputs {
  const { drawnBefore, outing = 1, ...rest } = given;
  const arms = drawnBefore.map((count, i) => ({
    code: `arm-${i + 1}`,
    grain: GRAINS[Math.floor(i / 2) % GRAINS.length]!,
    drawnBefore: count,
  }));
  return drawInputsSchema.parse({
    outingId: `018f3a5e-0000-7000-8000-${outing.toString(16).padStart(12, "0")}`,
    household: "h-1",
    climateGroup: "warm",
    region: "north",
    boxes: 6,
    grainsAtHand: [...new Set(arms.map((arm) => arm.grain))],
    arms,
    timeHash: "0".repeat(64),
    ...rest,
  });
}

/** Of a first draw in its climate group. */
export const NO_HISTORY: DrawHistory = {
  group: emptyTally(),
  region: emptyTally(),
  metByHousehold: new Map(),
  returned: null,
};

export function armsOf(result: DrawResult): string[] {
  if (!result.ok) throw new Error(`refused: ${result.reason}`);
  return result.placements.map((placement) => placement.arm);
}

export function timesTaken(arms: readonly string[]): Map<string, number> {
  const times = new Map<string, number>();
  for (const arm of arms) times.set(arm, (times.get(arm) ?? 0) + 1);
  return times;
}
