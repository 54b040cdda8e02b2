import { describe, expect, it } from "vitest";
import { type BinaryColumns, binaryOutings } from "@/lib/engine/statistics/binary-outings";
import type { PoolColumns } from "@/lib/engine/statistics/columns";
import { conditionalLogistic } from "@/lib/engine/statistics/conditional-logistic";
import { lossTest } from "@/lib/engine/statistics/loss-test";
import { mantelHaenszel } from "@/lib/engine/statistics/mantel-haenszel";
import { rankBlocks } from "@/lib/engine/statistics/rank-blocks";
import { rankTest } from "@/lib/engine/statistics/rank-test";
import { categoricalCases } from "./comparisons-reference";
import { relativelyClose } from "./reference";

const pair = { first: 0, second: 1, level: 0.95 };
const permuting = { seed: "clean", permutations: 999 };

/** Every box of a stratum in one outing; each outing a grower's. */
function strata(tables: readonly (readonly [number, number, number, number])[]): BinaryColumns {
  const columns = {
    grower: [] as number[],
    outing: [] as number[],
    arm: [] as number[],
    event: [] as number[],
  };
  tables.forEach(([a, b, c, d], outing) => {
    [a, b, c, d].forEach((count, cell) => {
      for (let i = 0; i < count; i++) {
        columns.grower.push(outing);
        columns.outing.push(outing);
        columns.arm.push(cell < 2 ? 0 : 1);
        columns.event.push(cell % 2 === 0 ? 1 : 0);
      }
    });
  });
  return columns;
}

/** Contrasts arm − first arm and their covariance, as R parametrises. */
function againstFirst(values: readonly number[], covariance: readonly (readonly number[])[]) {
  const others = values.map((_, i) => i).slice(1);
  return {
    coefficients: others.map((a) => values[a]! - values[0]!),
    covariance: others.map((a) =>
      others.map((b) => covariance[a]![b]! - covariance[a]![0]! - covariance[0]![b]! + covariance[0]![0]!),
    ),
  };
}

describe("Mantel–Haenszel by outing", () => {
  it.each(categoricalCases.binary)(
    "agrees with metafor's difference and odds ratio",
    ({ data, pair: expected }) => {
      const { difference, oddsRatio, outings } = mantelHaenszel(binaryOutings(data), pair);
      expect(outings).toBe(expected.outings);
      expect(relativelyClose(difference!.estimate, expected.difference, 1e-12)).toBe(true);
      expect(relativelyClose(Math.log(oddsRatio!.estimate), expected.logOddsRatio, 1e-12)).toBe(true);
    },
  );

  it("has R's common odds ratio of UCBAdmissions: mantelhaen.test gives .9046968283", () => {
    // Admitted and rejected men, then women, of departments A–F (datasets::UCBAdmissions).
    const admissions = strata([
      [512, 313, 89, 19],
      [353, 207, 17, 8],
      [120, 205, 202, 391],
      [138, 279, 131, 244],
      [53, 138, 94, 299],
      [22, 351, 24, 317],
    ]);
    expect(mantelHaenszel(binaryOutings(admissions), pair).oddsRatio!.estimate).toBeCloseTo(0.9046968283, 10);
  });

  it("with one box of each arm per grower is the paired t test of the differences", () => {
    const tables = [1, 1, 0, -1, 1, 0, 1, 1, 0, 1].map((d): [number, number, number, number] =>
      d === 1 ? [1, 0, 0, 1] : d === -1 ? [0, 1, 1, 0] : [1, 0, 1, 0],
    );
    const { difference, df } = mantelHaenszel(binaryOutings(strata(tables)), pair);
    // R: t.test(c(1,1,0,-1,1,0,1,1,0,1)): mean .5, t = 2.2361, df 9, p .0521772.
    expect(df).toBe(9);
    expect(difference!.estimate).toBeCloseTo(0.5, 14);
    expect(difference!.estimate / difference!.se).toBeCloseTo(2.2360679775, 9);
    expect(difference!.p).toBeCloseTo(0.0521772, 7);
  });

  it("turns round with the arms", () => {
    const outings = binaryOutings(categoricalCases.binary[0]!.data);
    const there = mantelHaenszel(outings, pair);
    const back = mantelHaenszel(outings, { first: 1, second: 0, level: 0.95 });
    expect(back.difference!.lower).toBeCloseTo(-there.difference!.upper, 14);
    expect(back.oddsRatio!.lower * there.oddsRatio!.upper!).toBeCloseTo(1, 12);
    expect(back.oddsRatio!.upper! * there.oddsRatio!.lower).toBeCloseTo(1, 12);
    expect(back.difference!.p).toBeCloseTo(there.difference!.p, 12);
  });

  it("bounds difference and odds ratio alike where the test is just significant", () => {
    const outings = binaryOutings(categoricalCases.binary[1]!.data);
    const { p } = mantelHaenszel(outings, pair).difference!;
    const { difference, oddsRatio } = mantelHaenszel(outings, { ...pair, level: 1 - p });
    expect(oddsRatio!.estimate > 1 ? oddsRatio!.lower : oddsRatio!.upper!).toBeCloseTo(1, 9);
    expect(difference!.estimate > 0 ? difference!.lower : difference!.upper).toBeCloseTo(0, 9);
  });

  it("says why there is no answer", () => {
    const none = mantelHaenszel(
      binaryOutings({ grower: [0, 1], outing: [0, 1], arm: [0, 1], event: [1, 0] }),
      pair,
    );
    expect(none).toMatchObject({ reason: "NOT_LINKED", difference: null, outings: 0 });
    const two = mantelHaenszel(
      binaryOutings(
        strata([
          [1, 0, 0, 1],
          [1, 0, 1, 0],
        ]),
      ),
      pair,
    );
    expect(two.reason).toBe("TOO_FEW_GROWERS");
    const same = mantelHaenszel(
      binaryOutings(
        strata([
          [1, 0, 1, 0],
          [1, 0, 1, 0],
          [0, 1, 0, 1],
        ]),
      ),
      pair,
    );
    expect(same.reason).toBe("NO_VARIATION");
    const never = mantelHaenszel(
      binaryOutings(
        strata([
          [1, 0, 0, 1],
          [0, 1, 0, 1],
          [1, 0, 0, 1],
        ]),
      ),
      pair,
    );
    expect(never).toMatchObject({ reason: null, oddsRatio: null });
    expect(() => binaryOutings({ grower: [0, 1], outing: [5, 5], arm: [0, 1], event: [1, 0] })).toThrow(
      /two growers/,
    );
  });
});

describe("conditional logistic regression by outing", () => {
  it.each([
    ...categoricalCases.binary.map(({ data, arms, conditional }) => ({ data, arms, ...conditional })),
    categoricalCases.infert,
  ])("agrees with survival::clogit, exact: $arms arms", ({ data, arms, ...expected }) => {
    const fit = conditionalLogistic(binaryOutings(data), arms, permuting);
    expect(fit).toMatchObject({ converged: true, reason: null });
    const { coefficients, covariance } = againstFirst(fit.logOdds!, fit.modelCovariance!);
    expect(fit.logLikelihood).toBeCloseTo(expected.logLikelihood, 9);
    coefficients.forEach((b, i) => {
      // clogit stops at a relative change of the likelihood of 1e-9.
      expect(b).toBeCloseTo(expected.coefficients[i]!, 5);
      covariance[i]!.forEach((v, j) => {
        expect(v).toBeCloseTo(expected.covariance[i]![j]!, 5);
      });
    });
  });

  it("agrees with clogit's grower-clustered covariance, apart from the factor G/(G − 1)", () => {
    const { data, arms, conditional } = categoricalCases.single;
    const fit = conditionalLogistic(binaryOutings(data), arms, permuting);
    const { covariance } = againstFirst(fit.logOdds!, fit.covariance!);
    const factor = fit.growers / (fit.growers - 1);
    covariance.forEach((row, i) => {
      row.forEach((v, j) => {
        expect(relativelyClose(v, factor * conditional.clustered[i]![j]!, 1e-6)).toBe(true);
      });
    });
  });

  it("tests equal odds by clogit's robust score statistic, its growers' scores centred", () => {
    const { data, arms, conditional } = categoricalCases.single;
    const { test, growers: G } = conditionalLogistic(binaryOutings(data), arms, permuting);
    const q = arms - 1;
    // With W R's u′(Σ u_g u_g′)⁻u, Hotelling's T² is (G − 1)W/(G − W) by Sherman & Morrison's formula.
    const W = conditional.robustScore;
    const F = (W * (G - q)) / (q * (G - W));
    expect(test).toMatchObject({ df1: q, df2: G - q });
    expect(relativelyClose(test!.statistic, F, 1e-9)).toBe(true);
  });

  it("permutes growers' arms where there are few growers", () => {
    const { data, arms } = categoricalCases.binary[0]!;
    const { test, growers } = conditionalLogistic(binaryOutings(data), arms, permuting);
    expect(growers).toBeLessThan(20);
    expect(test).toMatchObject({ df1: arms - 1, df2: null });
  });

  it("says when an arm always wins, isn't linked or nothing differs", () => {
    const always = strata(Array.from({ length: 6 }, () => [1, 0, 0, 1] as const));
    const separated = conditionalLogistic(binaryOutings(always), 2, permuting);
    expect(separated).toMatchObject({ reason: "SEPARATED", logOdds: null });
    // Six growers all for the first arm: 2 of the 64 ways to name their arms are as extreme.
    expect(separated.test!.p).toBeCloseTo(2 / 64, 1);
    const { data, arms } = categoricalCases.binary[0]!;
    expect(conditionalLogistic(binaryOutings(data), arms + 1, permuting)).toMatchObject({
      reason: "NOT_LINKED",
      test: null,
    });
    const nothing = strata(Array.from({ length: 6 }, () => [1, 0, 1, 0] as const));
    expect(conditionalLogistic(binaryOutings(nothing), 2, permuting).reason).toBe("NO_VARIATION");
  });
});

describe("loss by arm", () => {
  const { data, chiSquare, df, p } = categoricalCases.loss;
  const columns: PoolColumns = {
    n: data.event.length,
    labels: {
      grower: data.grower.map(String),
      outing: data.outing.map(String),
      band: ["Cfb"],
      arm: ["a", "b", "c", "d"],
      availability: [""],
    },
    grower: Int32Array.from(data.grower),
    outing: Int32Array.from(data.outing, (o) => [...new Set(data.outing)].indexOf(o)),
    band: new Int32Array(data.event.length),
    arm: Int32Array.from(data.arm),
    outcome: Float64Array.from(data.event, (lost) => (lost ? Number.NaN : 2)),
    lost: Uint8Array.from(data.event),
    availability: new Int32Array(data.event.length),
  };
  const options = { seed: "loss", permutations: 999 };

  it("is the generalised Cochran–Mantel–Haenszel test on outings of one size (R: mantelhaen.test)", () => {
    const plain = rankTest(rankBlocks({ ...columns, outcome: Float64Array.from(columns.lost) }), options);
    expect(plain.df).toBe(df);
    expect(relativelyClose(plain.chiSquare, chiSquare, 1e-9)).toBe(true);
    expect(relativelyClose(plain.p, p, 1e-9)).toBe(true);
  });

  it("is read by its permutation within growers, however many of them lost nothing", () => {
    const test = lossTest(columns, options);
    expect(test).toMatchObject({
      method: "PERMUTATION_WITHIN_GROWERS",
      growers: 25,
      df2: null,
      reason: null,
    });
    expect(lossTest(columns, options)).toEqual(test);
    // Hotelling's F of the same totals is not far off, these events being frequent.
    const blocks = rankBlocks({ ...columns, outcome: Float64Array.from(columns.lost) });
    const { clustered } = rankTest(blocks, options);
    expect(clustered.method).toBe("HOTELLING_F");
    expect(Math.abs(test.p! - clustered.p!)).toBeLessThan(0.05);
  });

  it("has nothing to say where nothing was lost", () => {
    const kept = lossTest({ ...columns, lost: new Uint8Array(columns.n) }, options);
    expect(kept).toMatchObject({ reason: "NO_VARIATION", p: null });
  });
});
