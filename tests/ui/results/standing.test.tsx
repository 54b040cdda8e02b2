import type { ReactElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { resultsContext } from "@/lib/ui/results/context";
import { Seasons, seasonBasis, Warmth } from "@/lib/ui/results/standing";
import type { ByStanding, PoolAnalysis, ReusedSpots } from "@/shared/schemas/pool-analysis";
import { poolTrial } from "@/tests/engine/statistics/pool-trial";
import { simulateTrial } from "@/tests/engine/statistics/simulated-trial";
import { inventedAnalysis } from "./invented-analysis";
import { inventedTrial } from "./invented-trial";

const result = poolTrial(simulateTrial({ growers: 12, arms: 3, growerArmSd: 0 }, "seasons page"), {
  permutations: 19,
});
const context = resultsContext(inventedTrial, result, []);

const PRESENT = ["2026-06 summer", "2026-09 autumn", "2026-12 winter"];
const compared: ByStanding = {
  method: "WALD_F",
  present: PRESENT,
  cells: PRESENT.map((season, i) => ({
    ...{ group: season, arm: "arm0", boxes: 20 + i, outings: 9, growers: 7 },
    ...{ estimate: 1.5 + i, se: 0.2, df: 30, lower: 1.1 + i, upper: 1.9 + i, reason: null },
  })),
  ...{ statistic: 4.25, df1: 4, df2: 60, p: 0.004, reason: null },
};

/** A part of the page without its tags. */
function plain(part: ReactElement): string {
  return renderToStaticMarkup(part)
    .replaceAll(/<[^>]+>/g, " ")
    .replaceAll(/[\s\u00a0]+/g, " ");
}

function words(seasons: ByStanding, reused?: ReusedSpots): string {
  return plain(<Seasons by={seasons} reused={reused} context={context} />);
}

describe("recipes by season on a page", () => {
  it("names seasons with their years, gives means with intervals and says whether differences vary", () => {
    const text = words(compared);
    expect(text).toContain("summer 2026 autumn 2026 winter 2026/27");
    expect(text).toContain("2.50 (2.10 to 2.90)");
    expect(text).toContain("vary over seasons (p = 0.004)");
    expect(text).toContain("F(4, 60) = 4.25");
    expect(text).not.toMatch(/NaN|undefined|null/);
  });

  it("says why there is nothing to compare, before the end too", () => {
    const none = { ...compared, ...{ cells: [], statistic: null, df1: null, df2: null, p: null } };
    expect(words({ ...none, present: [PRESENT[0]!], reason: "FEW_SEASONS" })).toContain(
      "seasons are compared from three on",
    );
    const interim = { ...compared, ...{ statistic: null, df1: null, df2: null, p: null } };
    expect(words({ ...interim, reason: "INTERIM" })).toContain("not shown before the trial");
  });

  it("flags spots used again, or says that how many is held back", () => {
    const reused = (own: Partial<ReusedSpots>) =>
      words(compared, { reused: 0, outings: 150, reason: null, ...own });
    expect(reused({ reused: 12 })).toContain(
      "12 of 150 sets (8 %) stood where a set of this trial had stood",
    );
    expect(reused({})).toContain("No set stood where one of this trial had stood before");
    expect(reused({ reused: null, outings: null, reason: "WITHHELD" })).toContain("held back");
  });
});

it("names warmth and says by how many degree-days, and says that it was not drawn", () => {
  const [cool, warm] = ["0-50", "75-150"];
  const [first, , last] = compared.cells as [
    ByStanding["cells"][number],
    unknown,
    ByStanding["cells"][number],
  ];
  const by = {
    ...compared,
    present: [cool!, warm!],
    cells: [
      { ...first, group: cool! },
      { ...last, group: warm! },
    ],
  };
  const text = plain(<Warmth by={by} context={context} />);
  expect(text).toContain("Recipe cool days warm days");
  expect(text).toContain("under 50 degree-days");
  expect(text).toContain("cool and warm sets differ in much besides");
});

it("says in one sentence how many seasons an answer rests on", () => {
  const over = (present: readonly string[]): PoolAnalysis => ({
    ...inventedAnalysis([]),
    seasons: { ...compared, present: [...present] },
  });
  expect(seasonBasis(null)).toContain("not known");
  expect(seasonBasis(over(PRESENT.slice(0, 1)))).toContain("This season only");
  expect(seasonBasis(over(PRESENT.slice(0, 2)))).toContain("Two seasons");
  expect(seasonBasis(over(PRESENT))).toContain("3 seasons");
});
