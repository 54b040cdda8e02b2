import { readFileSync } from "node:fs";
import { parse } from "csv-parse/sync";
import { expect, test } from "vitest";
import { GRAIN_FIGURES, USDA_ENTRIES, USDA_SOURCE } from "@/lib/reference/grains";
import { GRAINS } from "@/shared/vocabulary/grain";

// The table as it was received: USDA National Nutrient Database for Standard Reference, release 28.
const table: Record<string, string>[] = parse(
  readFileSync(new URL("../../lib/reference/grains-usda-sr28.csv", import.meta.url), "utf8"),
  { columns: true },
);

const firstWord = (description: string) => description.split(/[ ,]/)[0];
const numberOrNull = (text: string | undefined) => (text === undefined || text === "" ? null : Number(text));

test("the embedded table equals the received one row by row, in the same order", () => {
  expect(table.length).toBe(41);
  expect(USDA_ENTRIES).toEqual(
    table.map((row) => ({
      ndbNo: row.ndb_no,
      fdcId: numberOrNull(row.fdc_id),
      fdcIdStatus: row.fdc_id_status === "" ? null : row.fdc_id_status,
      description: row.description,
      waterGPer100G: Number(row.water_g_per_100g),
      cupMassG: numberOrNull(row.g_per_US_cup),
      bulkDensityGPerMl: numberOrNull(row["bulk_density_g_per_ml_(cup=236.588mL)"]),
    })),
  );
  expect(new Set(table.map((row) => row.source))).toEqual(new Set([USDA_SOURCE]));
});

test("every grain stands on a raw entry with water and a cup weight, its cooked entry holding more water", () => {
  expect(Object.keys(GRAIN_FIGURES).sort()).toEqual([...GRAINS].sort());
  for (const figures of Object.values(GRAIN_FIGURES)) {
    const raw = table.find((row) => row.ndb_no === figures.rawNdbNo)!;
    expect(raw.description, figures.grain).not.toMatch(/\b(CKD|COOKED)$/);
    expect(figures.rawWaterGPer100G).toBe(Number(raw.water_g_per_100g));
    expect(figures.rawCupMassG).toBe(Number(raw.g_per_US_cup));
    if (figures.cookedNdbNo === null) continue;
    const cooked = table.find((row) => row.ndb_no === figures.cookedNdbNo)!;
    expect(cooked.description, figures.grain).toMatch(/\b(CKD|COOKED)$/);
    expect(firstWord(cooked.description!)).toBe(firstWord(raw.description!));
    expect(figures.cookedWaterGPer100G!).toBeGreaterThan(figures.rawWaterGPer100G);
  }
});

test("every cooked grain entry of the table belongs to a grain, except bulgur's", () => {
  const cooked = table.filter((row) => /\b(CKD|COOKED)$/.test(row.description!)).map((row) => row.ndb_no);
  const linked = Object.values(GRAIN_FIGURES).map((figures) => figures.cookedNdbNo);
  expect(cooked.filter((ndbNo) => !linked.includes(ndbNo!))).toEqual(["20013"]);
});
