import { describe, expect, it } from "vitest";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { blocksInBand, rankBlocks } from "@/lib/engine/statistics/rank-blocks";
import type { PermutationOptions } from "@/lib/engine/statistics/rank-permutation";
import { rankTest } from "@/lib/engine/statistics/rank-test";
import type { PoolRow } from "@/shared/schemas/pool";
import { reference, relativelyClose } from "./reference";

const options = { seed: "rank test", permutations: 999 };

function rankOf(rows: readonly PoolRow[], permutation: PermutationOptions) {
  return rankTest(rankBlocks(poolTable(rows).columns), permutation);
}

/** The 116 measured days of datasets::airquality, New York 1973 (Chambers et al. 1983), as in R's own example. */
const ozonePpbByMonth = {
  "5": [41, 36, 12, 18, 28, 23, 19, 8, 7, 16, 11, 14, 18, 14, 34, 6, 30, 11, 1, 11, 4, 32, 23, 45, 115, 37],
  "6": [29, 71, 39, 23, 21, 37, 20, 12, 13],
  "7": [
    135, 49, 32, 64, 40, 77, 97, 97, 85, 10, 27, 7, 48, 35, 61, 79, 63, 16, 80, 108, 20, 52, 82, 50, 64, 59,
  ],
  "8": [
    39, 9, 16, 78, 35, 66, 122, 89, 110, 44, 28, 65, 22, 59, 23, 31, 44, 21, 9, 45, 168, 73, 76, 118, 84, 85,
  ],
  "9": [
    96, 78, 73, 91, 47, 32, 20, 23, 21, 24, 44, 21, 28, 9, 13, 46, 18, 13, 24, 16, 13, 23, 36, 7, 14, 30, 14,
    18, 20,
  ],
};

/** Complete outings, one per grower: a row per grower, a column per arm. */
function completeBlocks(outcomes: readonly (readonly number[])[]): PoolRow[] {
  return outcomes.flatMap((own, g) =>
    own.map(
      (outcome, a): PoolRow => ({
        grower: `g${g}`,
        outing: `o${g}`,
        band: "Cfb",
        arm: `arm${a}`,
        outcome,
        status: "graded",
      }),
    ),
  );
}

describe("the plain block-stratified form", () => {
  it("is Friedman's test on complete blocks (R: friedman.test(RoundingTimes))", () => {
    const { times, chiSquare, df, p } = reference.friedman;
    const rank = rankOf(completeBlocks(times), options);
    expect(rank.df).toBe(df);
    expect(relativelyClose(rank.chiSquare, chiSquare, 1e-12)).toBe(true);
    expect(relativelyClose(rank.p, p, 1e-10)).toBe(true);
    // As printed under ?friedman.test.
    expect(rank.chiSquare).toBeCloseTo(11.142857143, 9);
    expect(rank.p).toBeCloseTo(0.0038050408, 10);
  });

  it("is van Elteren's test on two arms (coin, warpbreaks: wool given tension)", () => {
    const { rows, rank: expected } = reference.vanElteren;
    const rank = rankOf(rows, options);
    expect(rank).toMatchObject({ df: expected.df, boxes: expected.boxes, outings: expected.outings });
    expect(relativelyClose(rank.chiSquare, expected.chiSquare, 1e-12)).toBe(true);
    expect(relativelyClose(rank.p, expected.p, 1e-12)).toBe(true);
  });

  it("is Durbin's test on balanced incomplete blocks", () => {
    // Conover (1999, Practical Nonparametric Statistics, 3rd ed., §5.9 Example 1; from memory): seven ice creams,
    // seven people tasting three each, T = 12 on 6 degrees of freedom.
    const ranks: Record<string, number>[] = [
      { A: 2, B: 3, D: 1 },
      { B: 3, C: 1, E: 2 },
      { C: 2, D: 1, F: 3 },
      { D: 1, E: 2, G: 3 },
      { A: 3, E: 1, F: 2 },
      { B: 3, F: 1, G: 2 },
      { A: 3, C: 1, G: 2 },
    ];
    const rows = ranks.flatMap((tasted, i) =>
      Object.entries(tasted).map(([arm, outcome]): PoolRow => {
        return { grower: `p${i}`, outing: `p${i}`, band: "", arm, outcome, status: "graded" };
      }),
    );
    const rank = rankOf(rows, options);
    expect(rank.df).toBe(6);
    expect(rank.chiSquare).toBeCloseTo(12, 10);
  });

  it.each(reference.trials.map((trial, i) => ({ ...trial, name: i + 1 })))(
    "agrees with coin on unequal outings, repeated arms and ties: trial $name",
    ({ rows, rank: expected }) => {
      const rank = rankOf(rows, options);
      expect(rank).toMatchObject({ df: expected.df, boxes: expected.boxes, outings: expected.outings });
      expect(relativelyClose(rank.chiSquare, expected.chiSquare, 1e-9)).toBe(true);
      expect(relativelyClose(rank.p, expected.p, 1e-9)).toBe(true);
    },
  );

  it("is Kruskal & Wallis' test on one large outing with ties (R: kruskal.test(Ozone ~ Month, airquality))", () => {
    const rows = Object.entries(ozonePpbByMonth).flatMap(([month, values]) =>
      values.map((outcome): PoolRow => {
        return { grower: "g", outing: "o", band: "", arm: month, outcome, status: "graded" };
      }),
    );
    const rank = rankOf(rows, options);
    // As printed under ?kruskal.test, 29.267 on 4, p = 6.901e-06; with all digits by R 4.2.2.
    expect(rank).toMatchObject({ boxes: 116, df: 4 });
    expect(relativelyClose(rank.chiSquare, 29.2665763061169, 1e-13)).toBe(true);
    expect(relativelyClose(rank.p, 6.90071411854678e-6, 1e-12)).toBe(true);
  });

  it("over one band is the test of that band's rows alone", () => {
    const { rows } = reference.trials[3]!;
    const { columns } = poolTable(rows);
    const bands = columns.labels.band;
    expect(bands.length).toBeGreaterThan(1);
    bands.forEach((band, number) => {
      const alone = rankOf(
        rows.filter((row) => row.band === band),
        options,
      );
      expect(rankTest(blocksInBand(rankBlocks(columns), number), options)).toEqual(alone);
    });
  });

  it("skips outings with a single measured box and says so", () => {
    const rows = completeBlocks([
      [1, 2, 3],
      [3, 2, 4],
      [0, 1, 0],
    ]);
    const single = { ...rows[0]!, grower: "alone", outing: "alone" };
    const rank = rankOf([...rows, single], options);
    expect(rank).toMatchObject({ skippedOutings: 1, outings: 3, growers: 3 });
    expect(rank.warnings).toContain("SINGLE_BOX_OUTINGS_SKIPPED");
    expect(rank.chiSquare).toBe(rankOf(rows, options).chiSquare);
  });

  it("compares within groups where no outing links the arms, and says so", () => {
    const rows = completeBlocks([
      [1, 2],
      [2, 4],
      [1, 3],
      [0, 3],
    ]).map((row, i) => (i < 4 ? row : { ...row, arm: `other ${row.arm}` }));
    const rank = rankOf(rows, options);
    expect(rank.df).toBe(2);
    expect(rank.warnings).toContain("ARMS_NOT_LINKED");
  });

  it.each([
    ["NO_BLOCKS", []],
    ["ONE_ARM", completeBlocks([[1], [2]]).map((row): PoolRow => ({ ...row, outing: "o", grower: "g" }))],
    [
      "NO_VARIATION",
      completeBlocks([
        [2, 2],
        [3, 3],
        [1, 1],
      ]),
    ],
  ])("gives %s instead of a number", (reason, rows) => {
    const rank = rankOf(rows, options);
    expect(rank).toMatchObject({ reason, chiSquare: null, p: null, clustered: { reason, p: null } });
  });
});

describe("the grower-clustered form", () => {
  it.each(reference.trials.map((trial, i) => ({ ...trial, name: i + 1 })))(
    "is Hotelling's T² from max(20, 3q) growers up (R, computed directly): trial $name",
    ({ rows, hotelling }) => {
      const { clustered } = rankOf(rows, options);
      expect(clustered.growers).toBe(hotelling.growers);
      if (hotelling.growers < Math.max(20, 3 * hotelling.df1)) {
        expect(clustered.method).toBe("PERMUTATION_WITHIN_GROWERS");
        return;
      }
      expect(clustered).toMatchObject({ method: "HOTELLING_F", df1: hotelling.df1, df2: hotelling.df2 });
      expect(relativelyClose(clustered.statistic, hotelling.statistic, 1e-9)).toBe(true);
      expect(relativelyClose(clustered.p, hotelling.p, 1e-9)).toBe(true);
    },
  );

  it("permutes to the exact p-value, every permutation listed here", () => {
    const outcomes = [
      [1, 2, 3],
      [1, 3, 2],
      [2, 1, 4],
      [0, 2, 3],
    ];
    const rows = completeBlocks(outcomes);
    const permutations = 20_000;
    const { clustered } = rankOf(rows, { seed: "exact", permutations });
    // With one complete outing per grower the statistic is Friedman's; all 6⁴ label permutations give its
    // distribution.
    const orders = [
      [0, 1, 2],
      [0, 2, 1],
      [1, 0, 2],
      [1, 2, 0],
      [2, 0, 1],
      [2, 1, 0],
    ];
    const friedman = (ranks: readonly (readonly number[])[]): number =>
      [0, 1, 2].reduce((sum, a) => sum + (ranks.reduce((total, own) => total + own[a]!, 0) - 8) ** 2, 0) / 4;
    const ranks = outcomes.map((own) => own.map((x) => own.filter((y) => y <= x).length));
    let asLarge = 0;
    for (let code = 0; code < 6 ** 4; code++) {
      const permuted = ranks.map((own, g) => orders[Math.floor(code / 6 ** g) % 6]!.map((a) => own[a]!));
      if (friedman(permuted) >= friedman(ranks) - 1e-9) asLarge++;
    }
    const exact = asLarge / 6 ** 4;
    const monteCarloError = Math.sqrt((exact * (1 - exact)) / permutations);
    expect(clustered.statistic).toBeCloseTo(friedman(ranks), 10);
    expect(Math.abs(clustered.p! - exact)).toBeLessThan(4 * monteCarloError);
    expect(clustered).toMatchObject({ df1: 2, df2: null, permutations, seed: "exact" });
  });

  it.each([
    ["3", [1, 2, 3]],
    ["4, where scores are rounded", [1, 2, 3, 4]],
    ["6, where scores are rounded", [2, 2, 3, 4, 6, 5]],
  ])(
    "permutes where all growers agree exactly, which Hotelling's covariance can't weigh: arms %s",
    (_, own) => {
      const rows = completeBlocks(Array.from({ length: 26 }, () => own));
      const { clustered } = rankOf(rows, options);
      expect(clustered.method).toBe("PERMUTATION_WITHIN_GROWERS");
      expect(clustered.p).toBe(1 / (1 + options.permutations));
    },
  );

  it("says nothing over growers from two of them", () => {
    const { clustered, p } = rankOf(
      completeBlocks([
        [1, 2, 3],
        [1, 3, 4],
      ]),
      options,
    );
    expect(clustered).toMatchObject({ reason: "TOO_FEW_GROWERS", p: null });
    expect(p).not.toBeNull();
  });

  it("gives the same answer whatever the order of the rows, and for the same seed only", () => {
    const { rows } = reference.trials[0]!;
    expect(rankOf([...rows].reverse(), options)).toEqual(rankOf(rows, options));
    const other = rankOf(rows, { ...options, seed: "another" });
    expect(other.clustered.statistic).toBe(rankOf(rows, options).clustered.statistic);
    expect(other.clustered.p).not.toBe(rankOf(rows, options).clustered.p);
  });
});
