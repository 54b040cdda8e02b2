import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { type PoolRow, poolResultSchema } from "@/shared/schemas/pool";
import { poolTrial } from "@/tests/engine/statistics/pool-trial";
import { canonicalRows } from "./canonical-rows";
import { reference } from "./reference";
import { simulateTrial } from "./simulated-trial";

const options = { permutations: 199 };
const regional = (rows: readonly PoolRow[]): PoolRow[] =>
  rows.map((row) => ({ ...row, region: Number(row.grower.slice(1)) % 3 === 0 ? "coast" : "hills" }));
const trial = regional(simulateTrial({ growers: 24, arms: 4, growerArmSd: 0.3 }, "pool trial"));

describe("canonicalRows", () => {
  const row: PoolRow = {
    grower: "g1",
    outing: "o1",
    band: "Cfb",
    arm: "a",
    outcome: 3,
    status: "graded",
    cleanTake: true,
  };

  it("writes each box as canonical JSON, unknown members as null", () => {
    expect(canonicalRows([row]).text).toBe(
      '{"arm":"a","band":"Cfb","box":null,"cleanTake":true,"grower":"g1","outcome":3,"outing":"o1",' +
        '"region":null,"status":"graded"}\n',
    );
  });

  it("does not depend on the rows' order but on how often they occur", () => {
    const other = { ...row, arm: "b" };
    expect(canonicalRows([row, other])).toEqual(canonicalRows([other, row]));
    expect(canonicalRows([row, row]).text).not.toBe(canonicalRows([row]).text);
  });

  it("ignores what a lost box is said to have grown", () => {
    const lost = { ...row, status: "lost" as const };
    expect(canonicalRows([lost])).toEqual(canonicalRows([{ ...lost, outcome: null, cleanTake: null }]));
  });

  it("refuses an outcome that is not finite", () => {
    expect(() => canonicalRows([{ ...row, outcome: Number.NaN }])).toThrow();
  });
});

describe("poolTrial", () => {
  const result = poolTrial(trial, options);

  it("is what the schema of stored results reads back, number for number", () => {
    expect(poolResultSchema.parse(JSON.parse(JSON.stringify(result)))).toEqual(result);
  });

  it("accounts for every box, however it is counted", () => {
    const { data, cells, regions, overall, totals, loss } = result;
    const boxes = (of: readonly { boxes: number | null }[]): number =>
      of.reduce((sum, one) => sum + one.boxes!, 0);
    expect(data.rows).toBe(trial.length);
    expect(data.analysed! + data.lost! + data.unmeasured!).toBe(data.rows);
    for (const summaries of [cells, regions, overall]) {
      expect(boxes(summaries.map(({ counts }) => counts))).toBe(data.rows);
      expect(boxes(summaries.map(({ mean }) => mean))).toBe(data.analysed);
      const classes = summaries.flatMap(({ distribution }) => distribution.classes!);
      expect(classes.reduce((sum, n) => sum + n, 0)).toBe(data.analysed);
    }
    expect(boxes(totals.byBand)).toBe(data.rows);
    expect(boxes(totals.byRegion)).toBe(data.rows);
    expect(loss.reduce((sum, { count }) => sum + count!, 0)).toBe(data.lost);
  });

  it("names its data cut by the SHA-256 of the canonical rows", () => {
    const hash = createHash("sha256").update(canonicalRows(trial).text, "utf8").digest("hex");
    expect(result.data.sha256).toBe(hash);
  });

  it("gives the same result, to the last bit, whatever order the rows come in", () => {
    expect(poolTrial([...trial].reverse(), options)).toEqual(result);
    const decimals = trial.map((row) => ({ ...row, outcome: row.outcome === null ? null : row.outcome / 3 }));
    expect(poolTrial([...decimals].reverse(), options)).toEqual(poolTrial(decimals, options));
  });

  it("tests within each band and over the trial", () => {
    expect(result.rankByBand.map(({ band }) => band)).toEqual(["Cfb", "Csa", "Csb"]);
    expect(result.rankByBand.reduce((sum, { boxes }) => sum + boxes!, 0)).toBe(result.rank.boxes);
  });

  it("widens intervals with the level", () => {
    const narrow = poolTrial(trial, { ...options, level: 0.8 });
    result.overall.forEach(({ mean }, i) => {
      expect(narrow.overall[i]!.mean.upper!).toBeLessThan(mean.upper!);
    });
  });

  it("counts growth classes only where the outcome is one", () => {
    const rows = trial.map((row) => ({ ...row, outcome: row.outcome === null ? null : row.outcome + 0.5 }));
    const [first] = poolTrial(rows, options).overall;
    expect(first!.distribution).toMatchObject({ classes: null, reason: "NOT_A_GROWTH_CLASS" });
    expect(first!.mean.estimate).not.toBeNull();
  });

  it("says in notes what a reader must know", () => {
    expect(poolTrial([], options)).toMatchObject({
      data: { rows: 0 },
      notes: ["NO_ANALYSED_BOXES"],
      rank: { reason: "NO_BLOCKS" },
    });
    const oneArm = trial.map((row) => ({ ...row, arm: "only" }));
    expect(poolTrial(oneArm, options).notes).toContain("ONE_ARM");
    expect(poolTrial(reference.trials[0]!.rows, options).notes).toEqual([
      "SINGLE_BOX_OUTINGS_SKIPPED",
      "UNMEASURED_BOXES",
    ]);
  });

  it("refuses an outing of two growers, bands or regions and a level that is none", () => {
    const [row] = trial;
    for (const other of [{ grower: "someone else" }, { band: "elsewhere" }, { region: "elsewhere" }])
      expect(() => poolTrial([...trial, { ...row!, ...other }])).toThrow(
        `Outing ${row!.outing} has rows of two`,
      );
    expect(() => poolTrial(trial, { level: 95 })).toThrow(/between 0 and 1/);
  });
});
