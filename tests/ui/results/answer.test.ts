import { describe, expect, it } from "vitest";
import { poolColumns } from "@/lib/engine/statistics/pool-columns";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import { answerOf, sayAnswer } from "@/lib/ui/results/answer";
import { resultsContext } from "@/lib/ui/results/context";
import { comparisonOf } from "@/lib/ui/results/pairs";
import type { PoolResult, PoolRow } from "@/shared/schemas/pool";
import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { poolTrial } from "@/tests/engine/statistics/pool-trial";
import { type InventedCell, inventedAnalysis } from "./invented-analysis";
import { inventedTrial } from "./invented-trial";

const MINIMUM = { boxesPerCell: 5, growersPerCell: 3 };

/** `growers` growers, each with one set of two boxes: arm0 with growth `first(g)`, arm2 with `second(g)`. Invented. */
function rows(growers: number, first: (g: number) => number, second: (g: number) => number): PoolRow[] {
  return Array.from({ length: growers }, (_, g) => g).flatMap((g) =>
    [
      { arm: "arm0", outcome: first(g) },
      { arm: "arm2", outcome: second(g) },
    ].map((box) => ({
      ...box,
      grower: `g${g}`,
      outing: `o${g}`,
      band: "Cfb",
      region: "north",
      status: "graded" as const,
    })),
  );
}

function say(result: PoolResult): string {
  return sayAnswer("Cfb", resultsContext(inventedTrial, result, [])).replaceAll("\u00a0", " ");
}

const RYE = "Rye 1 : 1 \\(arm0\\)";

/** A result with this analysis. */
function analysed(analysis: PoolAnalysis | null, interim: PoolResult["interim"] = null): PoolResult {
  const pooled = poolTrial(
    rows(
      12,
      (g) => 3 + (g % 2),
      (g) => g % 2,
    ),
  );
  return { ...pooled, analysis, interim };
}

const cell = (arm: string, estimate: number, mayBeBest: boolean): InventedCell => ({
  band: "Cfb",
  arm,
  estimate,
  chanceBest: mayBeBest ? 0.5 : 0,
  mayBeBest,
});
const three = [cell("arm0", 3.2, true), cell("arm1", 3, true), cell("arm2", 1, false)];

describe("the sentence on a climate group, by the fitted model", () => {
  it("names the leader alone when every other is shown to grow less", () => {
    const said = say(analysed(inventedAnalysis([cell("arm0", 3.2, true), cell("arm2", 1, false)])));
    expect(said).toMatch(new RegExp(`^${RYE} grew best here, 3\\.2 of 4 on average`));
  });

  it("names those that may be as good beside the leader, and only those", () => {
    const said = say(analysed(inventedAnalysis(three)));
    expect(said).toMatch(
      new RegExp(`^${RYE} grew most here.*isn't sure to be the best: Rye.*\\(arm1\\) may be`),
    );
    expect(said).not.toContain("Spelt");
  });

  it("claims no winner when none is shown to grow less", () => {
    const said = say(analysed(inventedAnalysis(three.map((one) => ({ ...one, mayBeBest: true })))));
    expect(said).toMatch(/may be chance: no recipe is shown to be better/);
  });

  it("goes by all pairs where the plan's primary comparison is all pairs, whatever the other says", () => {
    const far = [cell("arm0", 3.2, true), cell("arm2", 1, true)];
    expect(answerOf("Cfb", inventedAnalysis(far, { primary: "all-pairs" }), MINIMUM).behind).toEqual([
      "arm2",
    ]);
    const near = [cell("arm0", 3.2, true), cell("arm2", 3, false)];
    expect(answerOf("Cfb", inventedAnalysis(near, { primary: "all-pairs" }), MINIMUM).behind).toEqual([]);
  });

  it("says that all are alike only when every pair is, by the margin", () => {
    const alike = inventedAnalysis(
      three.map((one) => ({ ...one, estimate: 2, mayBeBest: true })),
      { margin: 1 },
    );
    expect(say(analysed(alike))).toMatch(/^All recipes grew alike here, within 1\.0/);
    const narrower = inventedAnalysis(
      three.map((one) => ({ ...one, estimate: 2, mayBeBest: true })),
      { margin: 0.5 },
    );
    expect(say(analysed(narrower))).not.toMatch(/alike/);
  });

  it("calls nothing best before the trial's end", () => {
    const interim = { look: 1, looks: 3, fraction: 0.5, by: "boxes" as const };
    const said = say(analysed(inventedAnalysis([cell("arm0", 3.2, true), cell("arm2", 1, false)]), interim));
    expect(said).toMatch(/^So far/);
    expect(said).not.toMatch(/best|shown to be better/);
  });

  it("names no recipe with fewer boxes than the plan asks for", () => {
    const analysis = inventedAnalysis(three);
    const few = { ...analysis, cells: analysis.cells.map((one) => ({ ...one, boxes: 4 })) };
    expect(say(analysed(few))).toBe("Not enough yet to say anything here.");
  });
});

describe("a comparison looked up the other way round", () => {
  it("turns difference, interval and verdict, and nothing else", () => {
    const analysis = inventedAnalysis([cell("arm0", 3.2, true), cell("arm2", 1, false)]);
    const forth = comparisonOf(analysis.contrasts, "Cfb", "arm0", "arm2")!;
    const back = comparisonOf(analysis.contrasts, "Cfb", "arm2", "arm0")!;
    expect(back).toMatchObject({
      first: "arm2",
      difference: -forth.difference!,
      lower: -forth.upper!,
      upper: -forth.lower!,
      verdict: "SECOND_SUPERIOR",
      se: forth.se,
      p: forth.p,
    });
    expect(forth.verdict).toBe("FIRST_SUPERIOR");
  });
});

describe("the sentence on a result without a model", () => {
  const plain = (pooled: PoolResult): string => say({ ...pooled, analysis: null });

  it("says that recipes differ only when the test over growers does", () => {
    const clear = plain(
      poolTrial(
        rows(
          12,
          (g) => 3 + (g % 2),
          (g) => g % 2,
        ),
      ),
    );
    expect(clear).toMatch(new RegExp(`^${RYE} grew most of the 2 recipes .* 3\\.5 on average`));
    expect(clear).toMatch(/and the recipes do differ/);
    const even = plain(
      poolTrial(
        rows(
          12,
          (g) => (g % 2 ? 3 : 1),
          (g) => (g % 2 ? 1 : 2),
        ),
      ),
    );
    expect(even).toMatch(new RegExp(`^${RYE} grew most, 2\\.0 on average, but that may be chance`));
  });

  it("names no recipe while none holds what the plan asks for", () => {
    const few = poolTrial(
      rows(
        4,
        () => 4,
        () => 0,
      ),
    );
    expect(few.cells[0]!.mean.estimate).not.toBeNull();
    expect(plain(few)).toBe("Not enough yet to say anything here.");
  });

  it("names none that is withheld", () => {
    const small = rows(
      2,
      () => 4,
      () => 0,
    );
    const published = withholdSmallCells(poolColumns(poolTable(small)));
    expect(plain(published)).toBe("Not enough yet to say anything here.");
    expect(say(published)).toBe("Not enough yet to say anything here.");
  });

  it("claims no winner where only one recipe can be compared", () => {
    const oneOnly = rows(
      6,
      () => 3,
      () => 1,
    ).filter(({ arm, grower }) => arm === "arm0" || grower === "g0");
    expect(plain(poolTrial(oneOnly))).toMatch(/grew 3\.0 on average; there is nothing to compare it with/);
  });
});
