import type { GrainFigures, GrainId } from "@/shared/vocabulary/grain";
import { GRAINS } from "@/shared/vocabulary/grain";
import { ML_PER_US_CUP } from "@/shared/vocabulary/units";

/** Where every figure of this file was read. */
export const USDA_SOURCE =
  "USDA National Nutrient Database for Standard Reference 28, ABBREV.txt (8,790 foods), read in GitHub d9nchik/db_test";

/**
 * One entry of the USDA table. `fdcId` is the entry's number in FoodData Central; `fdcIdStatus` says whether that
 * number was read at its source or written from memory and not checked.
 */
export interface UsdaEntry {
  readonly ndbNo: string;
  readonly fdcId: number | null;
  readonly fdcIdStatus: "read" | "memory" | null;
  readonly description: string;
  /** Wet basis: grams of water per 100 g. */
  readonly waterGPer100G: number;
  readonly cupMassG: number | null;
  /** Cup weight over 236.588 mL, to three decimals. */
  readonly bulkDensityGPerMl: number | null;
}

type Row = readonly [string, number | null, "read" | "memory" | null, string, number, number | null];

// NDB number, FoodData Central id, status of that id, description, water g/100 g, g per US cup.
// biome-ignore format: one entry a line, as in the table it was taken from
const ROWS: readonly Row[] = [
  ["20004", 170283, "memory", "BARLEY,HULLED", 9.44, 184],
  ["20005", 170284, "memory", "BARLEY,PEARLED,RAW", 10.09, 200],
  ["20006", 170285, "read", "BARLEY,PEARLED,COOKED", 68.8, 157],
  ["20008", 170286, "read", "BUCKWHEAT", 9.75, 170],
  ["20009", 170685, "memory", "BUCKWHEAT GROATS,RSTD,DRY", 8.41, 164],
  ["20010", 170686, "read", "BUCKWHEAT GROATS,RSTD,CKD", 75.63, 168],
  ["20012", null, null, "BULGUR,DRY", 9, 140],
  ["20013", null, null, "BULGUR,COOKED", 77.76, 182],
  ["20031", 169702, "memory", "MILLET,RAW", 8.67, 200],
  ["20032", 168871, "read", "MILLET,COOKED", 71.41, 174],
  ["20035", 168874, "memory", "QUINOA,UNCKD", 13.28, 170],
  ["20137", 168917, "memory", "QUINOA,CKD", 71.61, 185],
  ["20036", 169703, "memory", "RICE,BROWN,LONG-GRAIN,RAW", 11.8, 185],
  ["20037", 169704, "memory", "RICE,BROWN,LONG-GRAIN,CKD", 70.27, 202],
  ["20040", null, null, "RICE,BROWN,MEDIUM-GRAIN,RAW", 12.37, 190],
  ["20041", null, null, "RICE,BROWN,MEDIUM-GRAIN,CKD", 72.96, 195],
  ["20044", 169756, "memory", "RICE,WHITE,LONG-GRAIN,REG,RAW,ENR", 11.62, 185],
  ["20045", 168878, "memory", "RICE,WHITE,LONG-GRAIN,REG,ENR,CKD", 68.44, 158],
  ["20046", null, null, "RICE,WHITE,LONG-GRAIN,PARBLD,ENR,DRY", 9.86, 185],
  ["20047", null, null, "RICE,WHITE,LONG-GRAIN,PARBLD,ENR,CKD", 70.36, 158],
  ["20062", null, null, "RYE GRAIN", 10.6, 169],
  ["20067", 169716, "memory", "SORGHUM GRAIN", 12.4, 192],
  ["20069", null, null, "TRITICALE", 10.51, 192],
  ["20071", null, null, "WHEAT,HARD RED SPRING", 12.76, 192],
  ["20072", 168890, "memory", "WHEAT,HARD RED WINTER", 13.1, 192],
  ["20075", null, null, "WHEAT,SOFT WHITE", 10.42, 168],
  ["20138", null, null, "WHEAT,KHORASAN,UNCKD", 11.07, 186],
  ["20139", null, null, "WHEAT,KHORASAN,CKD", 65.18, 172],
  ["20140", null, null, "SPELT,UNCKD", 11.02, 174],
  ["20141", null, null, "SPELT,CKD", 66.56, 194],
  ["20142", null, null, "TEFF,UNCKD", 8.82, 193],
  ["20143", null, null, "TEFF,CKD", 74.93, 252],
  ["20001", null, null, "AMARANTH GRAIN,UNCKD", 11.29, 193],
  ["20002", null, null, "AMARANTH GRAIN,CKD", 75.16, 246],
  ["20088", null, null, "WILD RICE,RAW", 7.76, 160],
  ["20089", null, null, "WILD RICE,COOKED", 73.93, 164],
  ["20038", 169705, "memory", "OATS", 8.22, 156],
  ["20014", null, null, "CORN GRAIN,YEL", 10.37, 166],
  ["19334", 168833, "memory", "SUGARS,BROWN", 1.34, 220],
  ["19335", null, null, "SUGARS,GRANULATED", 0.02, null],
  ["19304", null, null, "MOLASSES", 21.87, 337],
];

/** Raw and cooked grains and sugars, in the order of the table they were taken from. Embedded, so that a browser has it. */
export const USDA_ENTRIES: readonly UsdaEntry[] = ROWS.map(
  ([ndbNo, fdcId, fdcIdStatus, description, waterGPer100G, cupMassG]) => ({
    ndbNo,
    fdcId,
    fdcIdStatus,
    description,
    waterGPer100G,
    cupMassG,
    bulkDensityGPerMl: cupMassG === null ? null : bulkDensityOf(cupMassG),
  }),
);

/** NDB numbers of each grain: raw, and cooked where the table has it. */
const NDB_NUMBERS: Readonly<Record<GrainId, readonly [raw: string, cooked: string | null]>> = {
  amaranth: ["20001", "20002"],
  "barley-hulled": ["20004", null],
  "barley-pearl": ["20005", "20006"],
  "brown-rice-long": ["20036", "20037"],
  "brown-rice-medium": ["20040", "20041"],
  buckwheat: ["20008", null],
  "buckwheat-roasted": ["20009", "20010"],
  maize: ["20014", null],
  millet: ["20031", "20032"],
  oats: ["20038", null],
  quinoa: ["20035", "20137"],
  rye: ["20062", null],
  sorghum: ["20067", null],
  spelt: ["20140", "20141"],
  teff: ["20142", "20143"],
  triticale: ["20069", null],
  "wheat-hard-spring": ["20071", null],
  "wheat-hard-winter": ["20072", null],
  "wheat-khorasan": ["20138", "20139"],
  "wheat-soft-white": ["20075", null],
  "white-rice-long": ["20044", "20045"],
  "white-rice-parboiled": ["20046", "20047"],
  "wild-rice": ["20088", "20089"],
};

/** Grams per millilitre to three decimals, from the weight of a level US cup. */
function bulkDensityOf(cupMassG: number): number {
  return Math.round((cupMassG / ML_PER_US_CUP) * 1000) / 1000;
}

function figuresOf(grain: GrainId): GrainFigures {
  const [rawNdbNo, cookedNdbNo] = NDB_NUMBERS[grain];
  const raw = entryOf(rawNdbNo);
  const cooked = cookedNdbNo === null ? null : entryOf(cookedNdbNo);
  if (raw.cupMassG === null || raw.bulkDensityGPerMl === null) {
    throw new Error(`USDA entry ${rawNdbNo} has no cup weight; link ${grain} to an entry that has one.`);
  }
  return {
    grain,
    rawNdbNo,
    cookedNdbNo,
    rawWaterGPer100G: raw.waterGPer100G,
    rawCupMassG: raw.cupMassG,
    rawBulkDensityGPerMl: raw.bulkDensityGPerMl,
    cookedWaterGPer100G: cooked?.waterGPer100G ?? null,
    cookedCupMassG: cooked?.cupMassG ?? null,
    cookedBulkDensityGPerMl: cooked?.bulkDensityGPerMl ?? null,
  };
}

function entryOf(ndbNo: string): UsdaEntry {
  const entry = USDA_ENTRIES.find((candidate) => candidate.ndbNo === ndbNo);
  if (entry === undefined) {
    throw new Error(`The USDA table has no entry ${ndbNo}; correct the link in NDB_NUMBERS.`);
  }
  return entry;
}

/** Published figures of every grain a recipe may name. */
export const GRAIN_FIGURES = Object.fromEntries(GRAINS.map((grain) => [grain, figuresOf(grain)])) as Readonly<
  Record<GrainId, GrainFigures>
>;
