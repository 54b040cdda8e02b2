import { describe, expect, test } from "vitest";
import { assumedUptake, MEDIAN_UPTAKE } from "@/lib/engine/grain/assumed-uptake";
import { cookedBulkDensity, EXPANSION_PER_UPTAKE } from "@/lib/engine/grain/cooked-bulk-density";
import { amountsPerBox, cookedVolumeMl } from "@/lib/engine/grain/cooking-amounts";
import { predictMoisture } from "@/lib/engine/grain/moisture";
import { GRAIN_FIGURES } from "@/lib/reference/grains";
import { GRAINS, type GrainId } from "@/shared/vocabulary/grain";
import { ML_PER_US_CUP } from "@/shared/vocabulary/units";
import { median, readMassBalance } from "@/tests/fixtures/reference/grain/mass-balance";
import { BARLEY_RECIPE } from "./recipes";

const balances = readMassBalance();
const fill = { innerLengthCm: 20, innerWidthCm: 15, grainDepthCm: 5 };

function amountsOf(change: Partial<typeof BARLEY_RECIPE>, box = fill) {
  const content = { ...BARLEY_RECIPE, ...change };
  const result = amountsPerBox({ content, figures: GRAIN_FIGURES[content.grain] }, box);
  if (!result.ok) throw new Error(result.reason);
  return result.amounts;
}

describe("constants taken from the USDA's pairs of raw and cooked entries (SR28)", () => {
  test("expansion and uptake are the medians of the 14 pairs, to two decimals", () => {
    const expansions = balances.map((row) => (row.cookedCupsPerRawCup - 1) / row.uptakeGPerG);
    expect(EXPANSION_PER_UPTAKE).toBe(Math.round(median(expansions) * 100) / 100);
    expect(MEDIAN_UPTAKE).toBe(Math.round(median(balances.map((row) => row.uptakeGPerG)) * 100) / 100);
  });

  test("where no cooked cup is published, expansion is within 35 % of what the other grains' cups weigh", () => {
    // From 21 % too light (teff) to 31 % too heavy (pearl barley): the error a screen must own up to.
    for (const row of balances) {
      const figures = Object.values(GRAIN_FIGURES).find((grain) => grain.rawNdbNo === row.rawNdbNo);
      if (figures === undefined) continue;
      const assumed = cookedBulkDensity({ ...figures, cookedBulkDensityGPerMl: null }, row.uptakeGPerG);
      const error = assumed.gPerMl / figures.cookedBulkDensityGPerMl! - 1;
      expect(Math.abs(error), `${row.grain} ${error}`).toBeLessThan(0.35);
      expect(assumed.from).toBe("ASSUMED_EXPANSION");
    }
  });
});

test("a box of one US cup needs the USDA's cooked cup: 157 g of pearl barley from about 54 g dry", () => {
  const cup = { innerLengthCm: ML_PER_US_CUP / 50, innerWidthCm: 10, grainDepthCm: 5 };
  const amounts = amountsOf({ waterToGrain: 1.882 }, cup);
  expect(amounts.cookedVolumeMl).toBeCloseTo(ML_PER_US_CUP, 9);
  expect(amounts.cookedMassG).toBeCloseTo(157, 0);
  expect(amounts.dryGrainMassG).toBe(55); // 157 / 2.882 = 54.5
  expect(amounts.waterMassG).toBe(105); // 55 × 1.882 = 103.5
  expect(amounts.assumed).toEqual(["ALL_WATER_TAKEN_UP", "USDA_COOKED_CUP"]);
});

test("what is weighed is a multiple of 5 g, fills the box and keeps the ratio, for every grain and form", () => {
  for (const grain of GRAINS) {
    for (const waterToGrain of [0.5, 1, 1.5, 2, 3]) {
      const amounts = amountsOf({ grain, waterToGrain });
      expect(amounts.dryGrainMassG % 5).toBe(0);
      expect(amounts.waterMassG % 5).toBe(0);
      expect(Math.abs(amounts.waterMassG - amounts.dryGrainMassG * waterToGrain)).toBeLessThanOrEqual(2.5);
      // The cooked mass that the weighed grain gives differs from the planned one by half a step of dry grain.
      const givenMassG = amounts.dryGrainMassG * (1 + waterToGrain);
      expect(Math.abs(givenMassG - amounts.cookedMassG)).toBeLessThanOrEqual(2.5 * (1 + waterToGrain) + 1e-9);
      expect(amounts.waterVolumeMl).toBeCloseTo(amounts.waterMassG / 0.998, 9);
    }
  }
});

test("twice the depth is twice the cooked grain", () => {
  const shallow = amountsOf({}, { ...fill, grainDepthCm: 3.5 });
  const deep = amountsOf({}, { ...fill, grainDepthCm: 7 });
  expect(deep.cookedMassG).toBeCloseTo(2 * shallow.cookedMassG, 9);
  expect(Math.abs(deep.dryGrainMassG - 2 * shallow.dryGrainMassG)).toBeLessThanOrEqual(7.5);
});

test("a grain without a cooked cup says that its volume is assumed", () => {
  expect(amountsOf({ grain: "rye" }).assumed).toContain("ASSUMED_EXPANSION");
  expect(amountsOf({ form: "cracked" }).assumed).toContain("LIES_AS_WHOLE_KERNELS");
});

describe("when water is drained or stays under the steamer", () => {
  test("five parts of water do not make the box half empty: the grain holds what the USDA's cooked barley holds", () => {
    const drained = amountsOf({ cookMethod: "boil-drain", waterToGrain: 5 });
    const absorbed = amountsOf({ waterToGrain: 1.882 });
    expect(drained.dryGrainMassG).toBe(absorbed.dryGrainMassG);
    expect(drained.waterMassG).toBe(drained.dryGrainMassG * 5);
    expect(drained.assumed).toContain("UPTAKE_AS_USDA_COOKED");
    expect(drained.unknown).toEqual(["DRAINED_WATER"]);
  });

  const uptakeOf = (grain: GrainId, change: Partial<typeof BARLEY_RECIPE>) => {
    const content = { ...BARLEY_RECIPE, grain, ...change };
    const result = predictMoisture(GRAIN_FIGURES[grain], content);
    if (!result.ok) throw new Error(result.reason);
    return assumedUptake(GRAIN_FIGURES[grain], result.prediction);
  };

  test.each(balances)("$grain is taken to hold the uptake of its USDA pair", (row) => {
    const figures = Object.values(GRAIN_FIGURES).find((candidate) => candidate.rawNdbNo === row.rawNdbNo);
    if (figures === undefined) return expect(row.grain).toBe("bulgur");
    const uptake = uptakeOf(figures.grain, { cookMethod: "boil-drain", waterToGrain: 5 });
    expect(uptake.gPerG).toBeCloseTo(row.uptakeGPerG, 3);
  });

  test("a grain never cooked by the USDA holds the median, and none more than the pot held unless it was soaked", () => {
    expect(uptakeOf("rye", { cookMethod: "steam", waterToGrain: 4 })).toEqual({
      gPerG: MEDIAN_UPTAKE,
      from: "UPTAKE_AS_OTHER_GRAINS",
    });
    expect(uptakeOf("rye", { cookMethod: "steam", waterToGrain: 0.8 }).gPerG).toBe(0.8);
    expect(uptakeOf("rye", { cookMethod: "steam", waterToGrain: 0.8, soakHours: 12 }).gPerG).toBe(
      MEDIAN_UPTAKE,
    );
  });
});

test("a tiny box still asks for one step of the scale", () => {
  expect(amountsOf({}, { innerLengthCm: 1, innerWidthCm: 1, grainDepthCm: 1 }).dryGrainMassG).toBe(5);
});

test("cups of cracked grain cannot be weighed and are refused by name", () => {
  const content = { ...BARLEY_RECIPE, form: "cracked", ratioBasis: "volume" } as const;
  expect(amountsPerBox({ content, figures: GRAIN_FIGURES["barley-pearl"] }, fill)).toEqual({
    ok: false,
    reason: "BULK_DENSITY_UNKNOWN",
  });
});

test("a box without length, width or depth is misuse", () => {
  expect(cookedVolumeMl(fill)).toBe(1500);
  expect(() => cookedVolumeMl({ ...fill, innerWidthCm: 0 })).toThrow("Inner width");
  expect(() => cookedVolumeMl({ ...fill, grainDepthCm: Number.NaN })).toThrow("Grain depth");
});
