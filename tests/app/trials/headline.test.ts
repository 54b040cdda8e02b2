import { describe, expect, it } from "vitest";
import { headline } from "@/app/trials/[slug]/results/_components/headline";
import { poolTrial } from "@/lib/engine/statistics/pool-trial";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import type { PoolResult, PoolRow } from "@/shared/schemas/pool";

const MINIMUM = { boxesPerCell: 5, growersPerCell: 3 };

/** `growers` growers, each with one set of two boxes: rye with growth `rye(g)`, oats with `oats(g)`. Invented. */
function rows(growers: number, rye: (g: number) => number, oats: (g: number) => number): PoolRow[] {
  return Array.from({ length: growers }, (_, g) => g).flatMap((g) =>
    [
      { arm: "rye", outcome: rye(g) },
      { arm: "oats", outcome: oats(g) },
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
  return headline(result.cells, result.rankByBand[0]!, (arm) => arm.toUpperCase(), MINIMUM);
}

describe("the sentence on a climate group", () => {
  it("says that recipes differ only when the test over growers does", () => {
    const clear = say(
      poolTrial(
        rows(
          12,
          (g) => 3 + (g % 2),
          (g) => g % 2,
        ),
      ),
    );
    expect(clear).toMatch(/^RYE grew most of the 2 recipes .* 3\.5 on average, and the recipes do differ/);
    const even = say(
      poolTrial(
        rows(
          12,
          (g) => (g % 2 ? 3 : 1),
          (g) => (g % 2 ? 1 : 2),
        ),
      ),
    );
    expect(even).toMatch(/^RYE grew most, 2\.0 on average, but that may be chance/);
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
    expect(say(few)).toBe("Not enough yet to say anything here.");
  });

  it("names none that is withheld", () => {
    const small = rows(
      2,
      () => 4,
      () => 0,
    );
    expect(say(withholdSmallCells(poolTrial(small), small))).toBe("Not enough yet to say anything here.");
  });

  it("claims no winner where only one recipe can be compared", () => {
    const oneOnly = rows(
      6,
      () => 3,
      () => 1,
    ).filter(({ arm, grower }) => arm === "rye" || grower === "g0");
    expect(say(poolTrial(oneOnly))).toMatch(/^RYE grew 3\.0 on average; there is nothing to compare it with/);
  });
});
