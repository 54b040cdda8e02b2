import { describe, expect, it } from "vitest";
import type { ArmFactors } from "@/lib/engine/statistics/analysis-plan";
import { tukeyFamily } from "@/lib/engine/statistics/analysis-tukey";
import { difference } from "@/lib/engine/statistics/mixed/contrasts";
import { fitMixedModel } from "@/lib/engine/statistics/mixed/fit-mixed-model";
import { poolColumns } from "@/lib/engine/statistics/pool-columns";
import { NO_EXTRAS, type PoolExtras } from "@/lib/engine/statistics/pool-extras";
import { interimResult } from "@/lib/engine/statistics/pool-interim";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { tukeyKramer } from "@/lib/engine/statistics/tukey-kramer";
import { type PoolRow, poolResultSchema } from "@/shared/schemas/pool";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { simulateTrial } from "./simulated-trial";

const rows = simulateTrial({ growers: 40, arms: 4, growerArmSd: 0.3 }, "analysis");
const table = poolTable(rows);
const ALL = { permutations: 99, sensitivity: true, byGrower: true, reference: "arm0", margin: 0.5 } as const;

function analysisOf(extras: PoolExtras = NO_EXTRAS, own: readonly PoolRow[] = rows): PoolAnalysis {
  return poolColumns(poolTable(own), extras, ALL).result.analysis!;
}

const factors = (grain: string, ratio: string, moisturePercent: number): ArmFactors => ({
  grain,
  ratio,
  minutes: null,
  moisturePercent,
});

describe("the critical values of a family with many pairs", () => {
  it.each([
    [12, 6.5, 40],
    [4, 90, 4000],
    [12, 1300, 390_000],
    [24, 20, 21],
  ])("are those of single pairs: %i arms, df %d to %d", (groups, from, to) => {
    const differences = Array.from({ length: 20 }, (_, i) => ({
      difference: i / 10,
      se: 0.3,
      df: from * (to / from) ** (i / 19),
    }));
    tukeyFamily(differences, groups, 0.95).forEach((ours, i) => {
      const one = tukeyKramer(differences[i]!, groups, 0.95);
      expect(Math.abs((ours.upper - ours.lower) / (one.upper - one.lower) - 1)).toBeLessThan(1e-7);
      expect(ours.p).toBe(one.p);
    });
  });
});

describe("an analysis", () => {
  const analysis = analysisOf();

  it("is of the stored form, and says what every part rests on", () => {
    const { result } = poolColumns(table, NO_EXTRAS, ALL);
    expect(poolResultSchema.parse(JSON.parse(JSON.stringify(result)))).toEqual(result);
    expect(analysis.model).toMatchObject({
      boxes: result.data.analysed,
      growers: 40,
      converged: true,
      reason: null,
    });
    expect(analysis.contrasts.length).toBe(18);
    expect(analysis.againstReference.length).toBe(9);
    expect(analysis.seed).toBe(result.data.sha256);
  });

  it("claims chances that sum to 1 in each group, for the mean and for a next set, the latter nearer to each other", () => {
    for (const band of new Set(analysis.cells.map((cell) => cell.band))) {
      const own = analysis.cells.filter((cell) => cell.band === band);
      expect(own.reduce((sum, cell) => sum + cell.chanceBest!, 0)).toBeCloseTo(1, 9);
      expect(own.reduce((sum, cell) => sum + cell.chanceBestNextSet!, 0)).toBeCloseTo(1, 9);
      expect(Math.max(...own.map((cell) => cell.chanceBestNextSet!))).toBeLessThan(
        Math.max(...own.map((cell) => cell.chanceBest!)),
      );
    }
  });

  it("predicts a set more widely than a grower's true difference, and that than the mean", () => {
    analysis.prediction.forEach(({ nextSet, trueDifference }, i) => {
      const { lower, upper } = analysis.contrasts[i]!;
      expect(nextSet.upper! - nextSet.lower!).toBeGreaterThan(trueDifference.upper! - trueDifference.lower!);
      expect(nextSet.upper! - nextSet.lower!).toBeGreaterThan(upper! - lower!);
    });
  });

  it("holds outings fixed beside it, and lost boxes for the best and the worst", () => {
    const kinds = new Map(analysis.sensitivity.map((one) => [one.kind, one]));
    const fixed = fitMixedModel(table.columns, { fixedOutings: true });
    if (!fixed.ok) throw new Error("The fit with outings fixed should exist.");
    for (const { band, first, second, fixedOuting } of analysis.contrasts) {
      const own = difference(fixed.fit, band, first, second);
      expect(own.estimable && own.estimate).toBeCloseTo(fixedOuting.difference!, 6);
    }
    expect(kinds.get("MASKED_GRADES")).toMatchObject({ contrasts: [], reason: "NOT_MEASURED" });
    const lost = rows.filter(({ status }) => status === "lost").length;
    for (const kind of ["LOST_AS_BEST", "LOST_AS_WORST"] as const)
      expect(kinds.get(kind)!.boxes).toBe(analysis.model.boxes! + lost);
  });

  it("gives each grower a weight that adds up to 1 over growers", () => {
    const pairs = new Set(analysis.growers.map(({ band, first, second }) => `${band} ${first} ${second}`));
    expect(pairs.size).toBe(3);
    for (const { difference: own, shiftWithout } of analysis.growers) {
      expect(Number.isFinite(own)).toBe(true);
      expect(shiftWithout === null || Math.abs(shiftWithout) < 3).toBe(true);
    }
  });

  it("compares levels of a factor between recipes alike in the other, by hand", () => {
    const factorsOfArms = new Map([
      ["arm0", factors("rye", "1:1", 50)],
      ["arm1", factors("rye", "1.5:1", 60)],
      ["arm2", factors("rice", "1:1", 54)],
      // No rye is cooked so wet: it tells nothing of grain.
      ["arm3", factors("rice", "2:1", 70)],
    ]);
    const { result } = poolColumns(table, NO_EXTRAS, { ...ALL, factors: factorsOfArms });
    const { cells, factors: effects, moisture } = result.analysis!;
    const band = cells[0]!.band;
    const of = (arm: string): number =>
      cells.find((cell) => cell.band === band && cell.arm === arm)!.estimate!;
    const own = effects.filter((effect) => effect.band === band);
    expect(own.map(({ factor, first, second }) => [factor, first, second])).toEqual([
      ["grain", "rice", "rye"],
      ["ratio", "1.5:1", "1:1"],
      ["ratio", "1:1", "2:1"],
    ]);
    expect(own[0]!.difference).toBeCloseTo(of("arm2") - of("arm0"), 9);
    const overall = effects.find((effect) => effect.band === null && effect.factor === "grain")!;
    const byBand = effects.filter((effect) => effect.band !== null && effect.factor === "grain");
    expect(overall.difference).toBeCloseTo(
      byBand.reduce((sum, one) => sum + one.difference! / byBand.length, 0),
      9,
    );
    const rye = moisture.find((curve) => curve.band === band && curve.grain === "rye")!;
    expect(rye.points.map(({ moisturePercent }) => moisturePercent)).toEqual([50, 60]);
    expect(rye.slope.difference).toBeCloseTo(of("arm1") - of("arm0"), 9);
  });

  it("reads what is known beyond the rows: masked grades, what was cooked, days", () => {
    const measured = rows.flatMap(({ outcome, status }, row) =>
      outcome === null || status === "lost" ? [] : [row],
    );
    const extras: PoolExtras = {
      ...NO_EXTRAS,
      masked: {
        row: Int32Array.from(measured),
        grader: new Int32Array(measured.length),
        take: Int8Array.from(measured, (row) => rows[row]!.outcome!),
      },
      asCooked: {
        labels: table.columns.labels.arm,
        index: table.columns.arm.map((arm, row) => (row % 10 === 0 ? -1 : arm)),
      },
      fetchDay: Float64Array.from(rows, (row) => (row.outing.endsWith("0") ? Number.NaN : 5)),
    };
    const own = analysisOf(extras);
    // The second looks say the same as the growers did: perfect agreement, and the same differences.
    expect(own.agreement).toMatchObject({
      boxes: measured.length,
      graders: 2,
      kappa: 1,
      alpha: 1,
      reason: null,
    });
    const masked = own.sensitivity.find(({ kind }) => kind === "MASKED_GRADES")!;
    masked.contrasts.forEach((one, i) => {
      expect(one.difference).toBeCloseTo(analysis.contrasts[i]!.difference!, 6);
    });
    const cooked = own.sensitivity.find(({ kind }) => kind === "AS_COOKED")!;
    expect(cooked.boxes).toBe(measured.filter((row) => row % 10 !== 0).length);
    const sameDay = own.sensitivity.find(({ kind }) => kind === "SAME_DAY_FETCH")!;
    expect(sameDay.boxes).toBe(measured.filter((row) => !rows[row]!.outing.endsWith("0")).length);
  });

  it("tests clean growth over all arms of a group at once, and pair by pair", () => {
    expect(analysis.cleanTests.map(({ band }) => band)).toEqual([
      ...new Set(analysis.clean.map(({ band }) => band)),
    ]);
    for (const { p, growers, reason } of analysis.cleanTests) {
      expect(reason === null ? p! > 0 && p! <= 1 && growers! > 2 : p === null).toBe(true);
    }
    expect(analysis.cleanTests.some(({ reason }) => reason === null)).toBe(true);
    const doubled = poolColumns(table, NO_EXTRAS, { ...ALL, seed: "another" }).result.analysis!;
    expect(doubled.cleanTests).toEqual(analysis.cleanTests);
  });

  it("says why there is none: one value, no more boxes than means", () => {
    const alike = rows.map((row): PoolRow => ({ ...row, outcome: row.outcome === null ? null : 2 }));
    expect(analysisOf(NO_EXTRAS, alike).model.reason).toBe("NO_VARIATION");
    const { model, cells } = analysisOf(NO_EXTRAS, rows.slice(0, 2));
    expect(model).toMatchObject({ reason: "TOO_FEW_BOXES", converged: false });
    expect(cells.every(({ estimate, reason }) => estimate === null && reason === "TOO_FEW_BOXES")).toBe(true);
  });
});

describe("an interim result", () => {
  it("has its intervals and neither p nor verdict nor best anywhere", () => {
    const { result } = poolColumns(table, NO_EXTRAS, { ...ALL, level: 0.999 });
    const interim = interimResult(result, { look: 1, looks: 3, fraction: 0.4, by: "boxes" });
    expect(poolResultSchema.parse(JSON.parse(JSON.stringify(interim)))).toEqual(interim);
    const hidden = [
      "p",
      "verdict",
      "chanceBest",
      "chanceBestNextSet",
      "mayBeBest",
      "chiSquare",
      "statistic",
      "verdict",
    ];
    const found = new Map<string, number>();
    JSON.stringify(interim, (key, value) => {
      if (hidden.includes(key)) {
        expect(value, key).toBeNull();
        found.set(key, (found.get(key) ?? 0) + 1);
      }
      return value;
    });
    expect(found.get("p")).toBeGreaterThan(20);
    expect(interim.analysis!.level).toBe(0.999);
    expect(interim.analysis!.contrasts.every(({ lower }) => lower !== null)).toBe(true);
    expect(interim.analysis!.growers).toEqual([]);
  });
});
