import { describe, expect, test } from "vitest";
import {
  cookedMassPerGrainMass,
  cookedMoisture,
  predictMoisture,
  waterMassPerGrainMass,
} from "@/lib/engine/grain/moisture";
import { seededSource } from "@/lib/engine/random/source";
import { GRAIN_FIGURES } from "@/lib/reference/grains";
import { readMassBalance } from "@/tests/fixtures/reference/grain/mass-balance";
import { BARLEY_RECIPE } from "./recipes";

const balances = readMassBalance();
const barley = GRAIN_FIGURES["barley-pearl"];

function predicted(change: Partial<typeof BARLEY_RECIPE>) {
  const result = predictMoisture(barley, { ...BARLEY_RECIPE, ...change });
  if (!result.ok) throw new Error(result.reason);
  return result.prediction;
}

describe("against the USDA's raw and cooked entries (SR28)", () => {
  test.each(balances)("$grain: the uptake gives the cooked moisture back", (row) => {
    const moisture = cookedMoisture(row.rawWaterGPer100G / 100, row.uptakeGPerG, 0);
    // Uptake rounded to 0.0005 g/g moves the moisture by at most 0.007 points; the table rounds to 0.005.
    expect(Math.abs(moisture * 100 - row.cookedWaterGPer100G)).toBeLessThan(0.013);
    expect(cookedMassPerGrainMass(row.uptakeGPerG, 0) * 100).toBeCloseTo(row.cookedMassGPer100GRaw, 0);
  });

  test.each(balances)("$grain: water by cups and by grams are one scale", (row) => {
    const figures = Object.values(GRAIN_FIGURES).find((grain) => grain.rawNdbNo === row.rawNdbNo);
    if (figures === undefined) return expect(row.grain).toBe("bulgur");
    const result = waterMassPerGrainMass(figures, {
      ...BARLEY_RECIPE,
      grain: figures.grain,
      ratioBasis: "volume",
      waterToGrain: row.waterCupsPerRawCup,
    });
    // A ratio of cups rounded to 0.005 is at most 0.005 / bulk density (0.659 at least) off.
    expect(result.ok && Math.abs(result.value - row.uptakeGPerG)).toBeLessThan(0.0085);
  });

  test("the fixture is read whole", () => expect(balances.length).toBe(14));
});

describe("for any grain, water and loss", () => {
  const source = seededSource("moisture properties");
  const cases = Array.from({ length: 300 }, () => ({
    w0: 0.05 + 0.1 * source.unit(),
    r: 5 * source.unit(),
    loss: 0.3 * source.unit(),
  }));

  test("the solids of the raw grain are the solids of the cooked grain", () => {
    for (const { w0, r, loss } of cases) {
      const cookedSolids = cookedMassPerGrainMass(r, loss) * (1 - cookedMoisture(w0, r, loss));
      expect(cookedSolids).toBeCloseTo(1 - w0, 12);
    }
  });

  test("more water is wetter, more loss is drier, and moisture stays between raw and all water", () => {
    for (const { w0, r, loss } of cases) {
      const moisture = cookedMoisture(w0, r, loss);
      expect(cookedMoisture(w0, r + 0.01, loss)).toBeGreaterThan(moisture);
      expect(cookedMoisture(w0, r + 0.01, loss + 0.01)).toBeLessThan(cookedMoisture(w0, r + 0.01, loss));
      expect(moisture).toBeGreaterThanOrEqual(w0);
      expect(moisture).toBeLessThan(1);
    }
  });
});

test("no water, or all of it lost, leaves the raw moisture", () => {
  expect(cookedMoisture(0.1009, 0, 0)).toBe(0.1009);
  expect(cookedMoisture(0.1009, 2, 1)).toBe(0.1009);
});

test.each([
  [-0.01, 1, 0],
  [1, 1, 0],
  [10.09, 1, 0],
  [0.1, -1, 0],
  [0.1, Number.POSITIVE_INFINITY, 0],
  [0.1, Number.NaN, 0],
  [0.1, 1, 1.01],
  [0.1, 1, 30],
])("moisture of %d with %d water and %d lost is misuse", (w0, r, loss) => {
  expect(() => cookedMoisture(w0, r, loss)).toThrow(RangeError);
});

describe("a recipe's prediction", () => {
  test("runs from no loss to 30 % lost and names what it takes for granted", () => {
    const prediction = predicted({});
    expect(prediction.moisture).toBeCloseTo((0.1009 + 1.5) / 2.5, 12);
    expect(prediction.moistureAtMostLoss).toBeCloseTo((0.1009 + 1.05) / 2.05, 12);
    expect(prediction.isUpperBound).toBe(true);
    expect(prediction.assumed).toEqual(["USDA_RAW_MOISTURE", "NO_WATER_LOST"]);
    expect(prediction.unknown).toEqual([]);
  });

  test("1:1 by cups is wetter than 1:1 by weight, because a cup of grain weighs less than a cup of water", () => {
    const byCups = predicted({ ratioBasis: "volume", waterToGrain: 1 });
    expect(byCups.waterMassPerGrainMass).toBeCloseTo(0.998 / 0.845, 12);
    expect(byCups.moisture).toBeGreaterThan(predicted({ waterToGrain: 1 }).moisture);
    expect(byCups.assumed).toContain("USDA_BULK_DENSITY");
  });

  test.each(["cracked", "flaked"] as const)("cups of %s grain are refused, grams are not", (form) => {
    const byCups = { ...BARLEY_RECIPE, form, ratioBasis: "volume" as const };
    expect(predictMoisture(barley, byCups)).toEqual({ ok: false, reason: "BULK_DENSITY_UNKNOWN" });
    expect(predictMoisture(barley, { ...byCups, ratioBasis: "mass" }).ok).toBe(true);
  });

  test.each([
    ["boil-drain", "DRAINED_WATER"],
    ["steam", "WATER_NOT_TAKEN_FROM_STEAM"],
  ] as const)("%s has no lower end and says why", (cookMethod, unknown) => {
    const prediction = predicted({ cookMethod });
    expect(prediction.moistureAtMostLoss).toBeNull();
    expect(prediction.isUpperBound).toBe(true);
    expect(prediction.unknown).toEqual([unknown]);
  });

  test.each([
    [{ rinsed: true }, "RINSE_WATER_AND_STARCH"],
    [{ soakHours: 8 }, "SOAK_UPTAKE"],
    [{ cooling: "cold-rinse" }, "COLD_RINSE_UPTAKE"],
  ] as const)("%o adds water nobody measured, so the nominal is no upper bound", (change, unknown) => {
    const prediction = predicted(change);
    expect(prediction.isUpperBound).toBe(false);
    expect(prediction.unknown).toEqual([unknown]);
    expect(prediction.moisture).toBe(predicted({}).moisture);
  });
});
