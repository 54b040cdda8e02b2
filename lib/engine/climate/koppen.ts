import type { KoppenClass } from "@/shared/vocabulary/climate";

/** Monthly normals, January first: mean temperatures in °C, precipitation in mm; 12 of each. */
export interface MonthlyNormals {
  readonly monthlyMeanC: readonly number[];
  readonly monthlyRainMm: readonly number[];
}

/** The quantities the printed criteria compare, under their printed names. */
export interface KoppenCriteria {
  /** Mean annual temperature, °C. */
  readonly matC: number;
  /** Mean annual precipitation, mm. */
  readonly mapMm: number;
  /** Mean temperature of the hottest and of the coldest month, °C. */
  readonly thotC: number;
  readonly tcoldC: number;
  /** Number of months above 10 °C. */
  readonly monthsAbove10C: number;
  /** Precipitation of the driest month of the year, mm. */
  readonly pdryMm: number;
  /** Driest and wettest month of the summer half-year, mm. */
  readonly psdryMm: number;
  readonly pswetMm: number;
  /** Driest and wettest month of the winter half-year, mm. */
  readonly pwdryMm: number;
  readonly pwwetMm: number;
  readonly summerHalf: "AMJJAS" | "ONDJFM";
  /** Precipitation of the summer half-year, mm. */
  readonly summerRainMm: number;
  /** Ten times Pthreshold, mm: under it the climate is dry, under half of it a desert. */
  readonly tenPthresholdMm: number;
}

export interface KoppenResult {
  readonly koppenClass: KoppenClass;
  readonly criteria: KoppenCriteria;
}

const AMJJAS = [3, 4, 5, 6, 7, 8];
const ONDJFM = [9, 10, 11, 0, 1, 2];

/**
 * Köppen–Geiger class by the printed criteria of Peel, Finlayson & McMahon (2007), Hydrol. Earth Syst. Sci.
 * 11:1633–1644, Table 1, with the quantities that decided it. The table leaves open Thot = 10 exactly (taken
 * as E) and half-years of equal warmth (AMJJAS is taken as summer).
 * @throws RangeError unless there are 12 finite temperatures and 12 finite precipitation sums of 0 or more.
 */
export function koppen(normals: MonthlyNormals): KoppenResult {
  checkNormals(normals);
  const criteria = criteriaOf(normals);
  return { koppenClass: classOf(criteria), criteria };
}

function checkNormals({ monthlyMeanC, monthlyRainMm }: MonthlyNormals): void {
  const complete = (values: readonly number[]) => values.length === 12 && values.every(Number.isFinite);
  if (!complete(monthlyMeanC) || !complete(monthlyRainMm)) {
    throw new RangeError("Normals are 12 finite temperatures and 12 finite precipitation sums: give all 24.");
  }
  if (monthlyRainMm.some((mm) => mm < 0)) {
    throw new RangeError("Precipitation can't be negative: give each month's sum in mm, 0 or more.");
  }
}

/** Takes binary rounding out of sums of decimal figures, so that a value on a threshold compares as printed. */
export function decimal(value: number): number {
  return Math.round(value * 1e9) / 1e9;
}

function criteriaOf({ monthlyMeanC: T, monthlyRainMm: P }: MonthlyNormals): KoppenCriteria {
  const total = (values: readonly number[]) => decimal(values.reduce((sum, value) => sum + value, 0));
  const pick = (values: readonly number[], months: readonly number[]) =>
    months.map((month) => values[month]!);
  const summerIsAmjjas = total(pick(T, AMJJAS)) >= total(pick(T, ONDJFM));
  const summer = pick(P, summerIsAmjjas ? AMJJAS : ONDJFM);
  const winter = pick(P, summerIsAmjjas ? ONDJFM : AMJJAS);
  const matC = decimal(total(T) / 12);
  const mapMm = total(P);
  const summerRainMm = total(summer);
  return {
    matC,
    mapMm,
    thotC: Math.max(...T),
    tcoldC: Math.min(...T),
    monthsAbove10C: T.filter((t) => t > 10).length,
    pdryMm: Math.min(...P),
    psdryMm: Math.min(...summer),
    pswetMm: Math.max(...summer),
    pwdryMm: Math.min(...winter),
    pwwetMm: Math.max(...winter),
    summerHalf: summerIsAmjjas ? "AMJJAS" : "ONDJFM",
    summerRainMm,
    tenPthresholdMm: decimal(10 * (2 * matC + rainSeasonTerm(summerRainMm, total(winter), mapMm))),
  };
}

/** The term added to 2·MAT in Pthreshold: 0 if ≥ 70 % of rain falls in winter, 28 if ≥ 70 % in summer, else 14. */
function rainSeasonTerm(summerMm: number, winterMm: number, mapMm: number): 0 | 14 | 28 {
  if (mapMm === 0) return 14;
  if (decimal(10 * winterMm) >= decimal(7 * mapMm)) return 0;
  if (decimal(10 * summerMm) >= decimal(7 * mapMm)) return 28;
  return 14;
}

function classOf(c: KoppenCriteria): KoppenClass {
  if (c.mapMm < c.tenPthresholdMm) {
    const warmth = c.matC >= 18 ? "h" : "k";
    return c.mapMm < c.tenPthresholdMm / 2 ? `BW${warmth}` : `BS${warmth}`;
  }
  if (c.tcoldC >= 18) {
    if (c.pdryMm >= 60) return "Af";
    return c.pdryMm >= decimal(100 - c.mapMm / 25) ? "Am" : "Aw";
  }
  if (c.thotC <= 10) return c.thotC > 0 ? "ET" : "EF";
  if (c.tcoldC > 0) return `C${rainSeason(c)}${c.thotC >= 22 ? "a" : c.monthsAbove10C >= 4 ? "b" : "c"}`;
  return `D${rainSeason(c)}${summerOfD(c)}`;
}

function summerOfD(c: KoppenCriteria): "a" | "b" | "c" | "d" {
  if (c.thotC >= 22) return "a";
  if (c.monthsAbove10C >= 4) return "b";
  return c.tcoldC < -38 ? "d" : "c";
}

/** Dry summer, dry winter or neither; where both hold, w when summer is the wetter half, else s. */
function rainSeason(c: KoppenCriteria): "s" | "w" | "f" {
  const drySummer = c.psdryMm < 40 && c.psdryMm < decimal(c.pwwetMm / 3);
  const dryWinter = c.pwdryMm < decimal(c.pswetMm / 10);
  if (drySummer && dryWinter) return c.summerRainMm > c.mapMm - c.summerRainMm ? "w" : "s";
  if (drySummer) return "s";
  return dryWinter ? "w" : "f";
}
