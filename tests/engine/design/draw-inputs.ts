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
