import { describe, expect, it } from "vitest";
import { poolColumns } from "@/lib/engine/statistics/pool-columns";
import { NO_EXTRAS } from "@/lib/engine/statistics/pool-extras";
import { interimResult } from "@/lib/engine/statistics/pool-interim";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import { type PoolRow, poolResultSchema } from "@/shared/schemas/pool";
import { simulateTrial } from "./simulated-trial";

/** A box with its usable grain: grams, null where not weighed. */
interface Weighed extends PoolRow {
  readonly usableMassG: number | null;
}

const OPTIONS = { permutations: 19 } as const;

function pooled(rows: readonly Weighed[], options = {}) {
  const usableMassG = Float64Array.from(rows, (row) => row.usableMassG ?? Number.NaN);
  const bare = rows.map(({ usableMassG: _, ...row }) => row);
  return poolColumns(poolTable(bare), { ...NO_EXTRAS, usableMassG }, { ...OPTIONS, ...options });
}

const usableOf = (rows: readonly Weighed[]) => pooled(rows).result.analysis!.usable!;

function box(grower: string, arm: string, usableMassG: number | null, own: Partial<Weighed> = {}): Weighed {
  const outcome = (Number(grower.slice(1)) + arm.charCodeAt(0)) % 5;
  return { grower, outing: grower, band: "Cfb", arm, outcome, status: "graded", usableMassG, ...own };
}

const LOST = { status: "lost", outcome: null } as const;

// Six growers, one set each of the recipes a, b and c; the third grower's c is lost. Invented grams.
const GRAMS = [
  [420, 510, 300],
  [380, 460, 250],
  [510, 600, null],
  [300, 395, 210],
  [450, 520, 330],
  [610, 640, 420],
] as const;
const balanced = GRAMS.flatMap((own, g) =>
  own.map((grams, a) => box(`g${g}`, "abc"[a]!, grams, grams === null ? LOST : {})),
);

describe("usable grain", () => {
  it("agrees with R, a lost box counting 0", () => {
    // R 4.2.2, lmerTest 3.1-3: lmer(g ~ arm + (1 | block)), emmeans 1.8.4-1: pairs(), Tukey, Satterthwaite; the
    // same as the randomised block analysis lm(g ~ block + arm). Balanced, so the interval's df are exactly 10.
    const reference = [
      ["a", "b", -75.83333333, -223.4212392, 71.75457256, 0.373225491],
      ["a", "c", 193.33333333, 45.74542744, 340.9212392, 0.012445535],
      ["b", "c", 269.16666667, 121.57876078, 416.7545726, 0.001414097],
    ] as const;
    const { cells, contrasts, reason } = usableOf(balanced);
    expect(reason).toBeNull();
    expect(cells.map(({ arm, boxes, growers }) => [arm, boxes, growers])).toEqual([
      ["a", 6, 6],
      ["b", 6, 6],
      ["c", 6, 6],
    ]);
    [445, 520.8333333, 251.6666667].forEach((mean, i) => {
      expect(cells[i]!.estimate).toBeCloseTo(mean, 5);
    });
    reference.forEach(([first, second, difference, lower, upper, p], i) => {
      const own = contrasts[i]!;
      expect([own.first, own.second]).toEqual([first, second]);
      expect(own.difference).toBeCloseTo(difference, 5);
      expect(own.se).toBeCloseTo(53.83875102, 3);
      expect(own.df).toBeCloseTo(10, 3);
      expect(own.lower).toBeCloseTo(lower, 2);
      expect(own.upper).toBeCloseTo(upper, 2);
      expect(own.p).toBeCloseTo(p, 5);
    });
  });

  it("is the main analysis in other units where grams follow growth: unbalanced, none lost", () => {
    // So what was measured by simulation of the main analysis' size and coverage holds here too.
    const rows = simulateTrial({ growers: 30, arms: 4, growerArmSd: 0.3, lossShare: 0 }, "usable").map(
      (row): Weighed => ({ ...row, usableMassG: 120 + 300 * row.outcome! }),
    );
    const { cells, contrasts, usable } = pooled(rows).result.analysis!;
    expect(usable!.cells.length).toBe(cells.length);
    usable!.cells.forEach((own, i) => {
      expect((own.estimate! - 120) / 300).toBeCloseTo(cells[i]!.estimate!, 4);
      expect((own.lower! - 120) / 300).toBeCloseTo(cells[i]!.lower!, 4);
    });
    usable!.contrasts.forEach((own, i) => {
      const { difference, lower, upper, p } = contrasts[i]!;
      expect(own.difference! / 300).toBeCloseTo(difference!, 4);
      expect(own.lower! / 300).toBeCloseTo(lower!, 4);
      expect(own.upper! / 300).toBeCloseTo(upper!, 4);
      expect(own.p).toBeCloseTo(p!, 4);
    });
  });

  it("leaves out what nobody weighed, lost boxes of sets without any weighing, and cells with too few weighed", () => {
    const more = [
      // Comes back unweighed.
      box("g0", "a", null),
      // Nothing of this set was weighed: its lost box says nothing.
      box("g6", "a", null),
      box("g6", "b", null, LOST),
      // Weighed by two households only, or four boxes only.
      ...["g0", "g1"].flatMap((grower) => [900, 900, 900].map((grams) => box(grower, "d", grams))),
      ...["g0", "g1", "g2", "g3"].map((grower) => box(grower, "e", 900)),
      box("g4", "e", null, LOST),
    ];
    const { cells, contrasts } = usableOf([...balanced, ...more]);
    const alone = usableOf(balanced);
    for (const arm of ["a", "b", "c"]) {
      const own = cells.find((cell) => cell.arm === arm)!;
      const before = alone.cells.find((cell) => cell.arm === arm)!;
      expect(own).toMatchObject({ boxes: before.boxes, outings: before.outings, growers: before.growers });
      expect(own.estimate).toBeCloseTo(before.estimate!, 6);
    }
    for (const arm of ["d", "e"]) {
      const own = cells.find((cell) => cell.arm === arm)!;
      expect(own).toMatchObject({ boxes: null, estimate: null, lower: null, reason: "NOT_MEASURED" });
    }
    expect(contrasts.length).toBe(3);
  });

  it("counts a set of which no box came back as 0", () => {
    const gone = ["a", "b", "c"].map((arm) => box("g6", arm, null, LOST));
    const { cells } = usableOf([...balanced, ...gone]);
    expect(cells.map(({ boxes }) => boxes)).toEqual([7, 7, 7]);
    expect(cells[0]!.estimate).toBeCloseTo((6 * 445) / 7, 6);
  });

  it("says so where too few boxes were weighed, and is missing in results of earlier engines", () => {
    const nothing = { cells: [], contrasts: [], reason: "NOT_MEASURED" };
    const unweighed = balanced.map((row) => ({ ...row, usableMassG: null }));
    expect(usableOf(unweighed)).toEqual(nothing);
    expect(usableOf(balanced.filter(({ grower }) => grower < "g4"))).toEqual(nothing);
    const { result } = pooled(balanced);
    expect(poolResultSchema.parse(JSON.parse(JSON.stringify(result)))).toEqual(result);
    const { usable: _, ...earlier } = result.analysis!;
    expect(poolResultSchema.safeParse({ ...result, analysis: earlier }).success).toBe(true);
  });

  it("shows no p before the trial's end", () => {
    const interim = interimResult(pooled(balanced, { level: 0.999 }).result, {
      ...{ look: 1, looks: 3, fraction: 0.4, by: "boxes" },
    });
    const { contrasts } = interim.analysis!.usable!;
    expect(contrasts.map(({ p }) => p)).toEqual([null, null, null]);
    expect(contrasts.every(({ lower }) => lower !== null)).toBe(true);
  });

  it("is published from shown cells alone: grams of a hidden cell change nothing", () => {
    const published = (grams: readonly number[]) => {
      const few = grams.map((own, i) => box(`g${i}`, "rare", own, { band: "Dfb", outing: `h${i}` }));
      const whole = pooled([...balanced, ...few]);
      const usable = withholdSmallCells(whole).analysis!.usable!;
      expect(whole.result.analysis!.usable!.cells.length).toBe(4);
      return usable;
    };
    const one = published([10, 20]);
    expect(one.cells.length).toBe(3);
    expect(one.reason).toBeNull();
    expect(published([800, 3000])).toEqual(one);
  });

  it("lets nobody's grams through a shown cell that two households weighed", () => {
    const published = (grams: readonly number[]) => {
      const shown = GRAMS.map((_, g) => box(`g${g}`, "d", g < 2 ? grams[g]! : null));
      return withholdSmallCells(pooled([...balanced, ...shown])).analysis!;
    };
    const [one, other] = [published([10, 20]), published([800, 3000])];
    expect(one.cells.find(({ arm }) => arm === "d")!.boxes).toBe(6);
    expect(one.usable!.cells.find(({ arm }) => arm === "d")!.reason).toBe("NOT_MEASURED");
    expect(one).toEqual(other);
  });
});
