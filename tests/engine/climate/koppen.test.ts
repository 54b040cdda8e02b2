import { describe, expect, it } from "vitest";
import { koppen } from "@/lib/engine/climate/koppen";
import { isKoppenClass } from "@/shared/vocabulary/climate";
import { months, readFixture, seededUniform } from "./helpers";

const MONTHS = ["Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"];
const stations = readFixture("koppen_stations.csv");
const normalsOf = (row: Record<string, string>) => ({
  monthlyMeanC: MONTHS.map((month) => Number(row[`T_${month}`])),
  monthlyRainMm: MONTHS.map((month) => Number(row[`P_${month}`])),
});
const classOf = (monthlyMeanC: number[], monthlyRainMm: number[]) =>
  koppen({ monthlyMeanC, monthlyRainMm }).koppenClass;

describe("stations of the WMO normals 1991–2020", () => {
  it.each(stations)("$station is $class_peel2007_rules with the same deciding quantities", (row) => {
    const { koppenClass, criteria } = koppen(normalsOf(row));
    expect(koppenClass).toBe(row.class_peel2007_rules);
    // The fixture rounds MAT to 2 decimals, ten Pthreshold and the rest to 1, the share to 3.
    expect(Math.abs(criteria.matC - Number(row.MAT))).toBeLessThanOrEqual(0.005 + 1e-9);
    expect(Math.abs(criteria.mapMm - Number(row.MAP))).toBeLessThanOrEqual(0.05 + 1e-9);
    expect(Math.abs(criteria.tenPthresholdMm - Number(row.ten_x_Pthreshold))).toBeLessThanOrEqual(
      0.05 + 1e-9,
    );
    expect(Math.abs(criteria.summerRainMm / criteria.mapMm - Number(row.summer_share))).toBeLessThanOrEqual(
      5.1e-4,
    );
    expect(criteria).toMatchObject({
      thotC: Number(row.Thot),
      tcoldC: Number(row.Tcold),
      monthsAbove10C: Number(row.months_gt10),
      pdryMm: Number(row.Pdry),
      psdryMm: Number(row.Psdry),
      pswetMm: Number(row.Pswet),
      pwdryMm: Number(row.Pwdry),
      pwwetMm: Number(row.Pwwet),
    });
  });

  it("agrees with the published grid (Kottek et al. 2006) at all but the stations known to lie on a border", () => {
    const differing = stations
      .filter((row) => koppen(normalsOf(row)).koppenClass !== row.class_kottek_halfdeg_grid_1951_2000)
      .map((row) => row.station);
    // Honolulu: the grid's As; Adelaide, Sapporo: borderline; Hilo: a cell that holds Mauna Kea.
    expect(differing).toEqual(["HONOLULU_INTL_AP", "AdelaideAirport", "Sapporo", "HILO_INTL_AP"]);
  });
});

describe("thresholds as printed in Peel et al. (2007), Table 1", () => {
  /** Hot July, cold January, ten mild months: rain even and ample, so that only temperature decides. */
  const even = (hot: number, cold: number, rest: number) =>
    classOf(months(rest, { 0: cold, 6: hot }), months(100));

  it.each([
    ["A from Tcold 18", even(25, 18, 20), "Af"],
    ["C just below 18", even(25, 17.9, 20), "Cfa"],
    ["C just above Tcold 0", even(18, 0.1, 12), "Cfb"],
    ["D at Tcold 0", even(18, 0, 12), "Dfb"],
    ["a from Thot 22", even(22, 5, 12), "Cfa"],
    ["b just below 22", even(21.9, 5, 12), "Cfb"],
    ["b not with months at 10 exactly", even(15, 5, 10), "Cfc"],
    ["b with months above 10", even(15, 5, 10.1), "Cfb"],
    ["C with Thot just above 10", even(10.1, 1, 5), "Cfc"],
    ["E at Thot 10", even(10, 1, 5), "ET"],
    ["T just above Thot 0", even(0.1, -20, -10), "ET"],
    ["F at Thot 0", even(0, -20, -10), "EF"],
    ["c at Tcold -38", even(15, -38, 0), "Dfc"],
    ["d below Tcold -38", even(15, -38.1, 0), "Dfd"],
  ])("%s", (_, actual, expected) => expect(actual).toBe(expected));

  it("counts four months above 10 °C as b and three as c", () => {
    const warm = (n: number) =>
      classOf(months(5, Object.fromEntries([5, 6, 7, 8].slice(0, n).map((m) => [m, 15]))), months(100));
    expect(warm(4)).toBe("Cfb");
    expect(warm(3)).toBe("Cfc");
  });

  it("is dry below ten Pthreshold, steppe on half of it, desert below half", () => {
    // MAT 13, even rain: Pthreshold = 2·13 + 14 = 40, so the lines are 400 and 200 mm.
    const rain = (mapMm: number) => classOf(months(13), months(mapMm / 12));
    expect(rain(400)).toBe("Cfb");
    expect(rain(399.6)).toBe("BSk");
    expect(rain(200.4)).toBe("BSk");
    expect(rain(199.2)).toBe("BWk");
    expect(classOf(months(13), months(0, { 0: 100, 6: 100 }))).toBe("BSk");
  });

  it("takes h from MAT 18", () => {
    expect(classOf(months(18), months(1))).toBe("BWh");
    expect(classOf(months(17.9), months(1))).toBe("BWk");
  });

  it("switches Pthreshold at exactly 70 % of rain in one half-year", () => {
    const warmSummer = months(10, { 3: 20, 4: 20, 5: 20, 6: 20, 7: 20, 8: 20 }); // MAT 15
    const tenP = (summerMm: number, winterMm: number) =>
      koppen({
        monthlyMeanC: warmSummer,
        monthlyRainMm: months(
          winterMm / 6,
          Object.fromEntries([3, 4, 5, 6, 7, 8].map((m) => [m, summerMm / 6])),
        ),
      }).criteria.tenPthresholdMm;
    expect(tenP(420, 180)).toBe(580);
    expect(tenP(419.4, 180.6)).toBe(440);
    expect(tenP(180, 420)).toBe(300);
    expect(tenP(180.6, 419.4)).toBe(440);
    expect(tenP(0, 0)).toBe(440);
  });

  it("splits A at Pdry 60 and at 100 − MAP/25", () => {
    // MAP 11·110 + Pdry; with Pdry 50 that is 1260 mm and 100 − 1260/25 = 49.6.
    expect(classOf(months(25), months(150, { 0: 60 }))).toBe("Af");
    expect(classOf(months(25), months(150, { 0: 59.9 }))).toBe("Am");
    expect(classOf(months(25), months(110, { 0: 50 }))).toBe("Am");
    expect(classOf(months(25), months(110, { 0: 49 }))).toBe("Aw");
    // Pdry exactly 100 − MAP/25: 25 and a MAP of 1875.
    expect(classOf(months(25), months(1850 / 11, { 0: 25 }))).toBe("Am");
  });

  it("asks of a dry summer under 40 mm and under a third of the wettest winter month", () => {
    const temperate = months(5, { 5: 18, 6: 20, 7: 20, 8: 16 });
    expect(classOf(temperate, months(90, { 0: 120, 6: 39.9 }))).toBe("Csb");
    expect(classOf(temperate, months(90, { 0: 121, 6: 40 }))).toBe("Cfb");
    expect(classOf(temperate, months(90, { 0: 117, 6: 39 }))).toBe("Cfb");
  });

  it("asks of a dry winter under a tenth of the wettest summer month", () => {
    const temperate = months(5, { 5: 18, 6: 20, 7: 20, 8: 16 });
    expect(classOf(temperate, months(90, { 0: 14.9, 6: 150 }))).toBe("Cwb");
    expect(classOf(temperate, months(90, { 0: 15, 6: 150 }))).toBe("Cfb");
  });

  it("takes w when both seasons count as dry and summer is the wetter half, else s", () => {
    const temperate = months(5, { 5: 18, 6: 20, 7: 20, 8: 16 });
    const both = { 0: 5, 1: 100, 6: 20, 7: 120 };
    expect(classOf(temperate, months(60, { ...both, 4: 200, 5: 200 }))).toBe("Cwb");
    expect(classOf(temperate, months(60, { ...both, 10: 200, 11: 200 }))).toBe("Csb");
  });
});

describe("properties", () => {
  const uniform = seededUniform(20070611);
  const randomNormals = () => {
    const mean = -45 + 75 * uniform();
    const swing = 35 * uniform();
    const wet = 10 ** (3 * uniform());
    return {
      monthlyMeanC: Array.from({ length: 12 }, () => mean + swing * (uniform() - 0.5)),
      monthlyRainMm: Array.from({ length: 12 }, () => wet * uniform() ** 3),
    };
  };

  it("gives one of the 30 classes for any finite normals and does not depend on the hemisphere", () => {
    const seen = new Set<string>();
    const turn = (values: number[]) => [...values.slice(6), ...values.slice(0, 6)];
    for (let i = 0; i < 5000; i++) {
      const { monthlyMeanC, monthlyRainMm } = randomNormals();
      const here = classOf(monthlyMeanC, monthlyRainMm);
      expect(isKoppenClass(here)).toBe(true);
      expect(classOf(turn(monthlyMeanC), turn(monthlyRainMm))).toBe(here);
      seen.add(here.charAt(0));
    }
    expect([...seen].sort()).toEqual(["A", "B", "C", "D", "E"]);
  });

  it("stays total at extremes", () => {
    for (const t of [-1e6, -90, 0, 60, 1e6]) {
      for (const mm of [0, 1e-12, 1e6]) expect(isKoppenClass(classOf(months(t), months(mm)))).toBe(true);
    }
  });

  it("refuses normals that are incomplete, not finite or negative rain", () => {
    expect(() => classOf(months(10).slice(1), months(50))).toThrow(RangeError);
    expect(() => classOf(months(Number.NaN), months(50))).toThrow(RangeError);
    expect(() => classOf(months(10), months(-1))).toThrow(/negative/);
  });
});
