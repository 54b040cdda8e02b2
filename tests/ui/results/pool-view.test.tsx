import { Children, type ComponentProps, type ReactElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { poolColumns } from "@/lib/engine/statistics/pool-columns";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import { DrawnOnce, drawOnce } from "@/lib/ui/components/drawn-once";
import { PoolView } from "@/lib/ui/results/pool-view";
import { StoredPool } from "@/lib/ui/results/stored-pool";
import type { PoolResult, PoolRow } from "@/shared/schemas/pool";
import { poolTrial } from "@/tests/engine/statistics/pool-trial";
import { simulateTrial } from "@/tests/engine/statistics/simulated-trial";
import { inventedAnalysis } from "./invented-analysis";
import { inventedTrial } from "./invented-trial";

/** A climate group's fold without its tags. */
function group(markup: string, code: string): string {
  const from = markup.indexOf(`<div id="group-${code}"`);
  expect(from).toBeGreaterThan(0);
  const next = markup.slice(from + 1).search(/<div id="(group|everywhere)/);
  return words(markup.slice(from, next < 0 ? undefined : from + 1 + next));
}

function words(markup: string): string {
  return markup
    .replaceAll(/<[^>]+>/g, " ")
    .replaceAll("&#x27;", "'")
    .replaceAll(/\s+/g, " ");
}

function render(result: PoolResult, ownGroups: readonly string[] = []): string {
  const seen = { computedAt: new Date("2026-11-05T13:02:00Z"), newerWanted: false, ownGroups };
  return renderToStaticMarkup(<PoolView trial={inventedTrial} result={result} {...seen} />);
}

function publish(rows: readonly PoolRow[]): PoolResult {
  return withholdSmallCells(poolColumns(poolTable(rows), undefined, { permutations: 199 }));
}

const simulated = simulateTrial(
  { growers: 40, arms: 3, growerArmSd: 0.3, armEffects: [0, 0, 1.5] },
  "pool view",
);
const rows = simulated.map((row) => ({ ...row, region: "north" }));
const pooled = poolTrial(rows, { permutations: 199 });

describe("a stored result as a page", () => {
  it("carries every plain mean and what it rests on in the markup the server sends", () => {
    const markup = render(publish(rows));
    for (const { band, arm, mean, counts } of pooled.cells) {
      const name = arm === "arm2" ? "Spelt 1.5 : 1" : `Rye 1 : 1 \\(${arm}\\)`;
      const figures = [mean.boxes, mean.outings, mean.growers, counts.lost].join(" ");
      const row = `${name} ${mean.estimate!.toFixed(2)} \\S+ to \\S+ ${figures} `;
      expect(group(markup, band)).toMatch(new RegExp(row));
    }
    expect(words(markup)).toContain("closed early, on 5 November 2026; its plan ran to 30 November 2026");
    expect(words(markup)).toContain("Not enough yet: no box from Cold winters, warm summers");
    expect(markup).toContain(pooled.data.sha256);
  });

  it("of a trial without any box says so, and draws no table without a figure", () => {
    const markup = render(publish([]));
    expect(words(markup)).toContain("0 boxes of 0 growers in 0 sets");
    expect(markup).not.toMatch(/<table|<nav/);
    expect(words(markup)).toContain("Where these figures come from");
  });

  it("says that a small group is held back, and shows none of its figures", () => {
    const twoGrowers = [
      ...new Set(rows.filter(({ band }) => band === "Csa").map(({ grower }) => grower)),
    ].slice(0, 2);
    const few = rows.filter(({ band, grower }) => band !== "Csa" || twoGrowers.includes(grower));
    const markup = render(publish(few));
    const text = group(markup, "Csa");
    expect(text).toContain("held back: too few households or boxes");
    expect(words(markup)).toContain("Not enough yet to say anything here.");
    for (const { mean } of poolTrial(few, { permutations: 199 }).cells.filter(({ band }) => band === "Csa")) {
      expect(text).not.toContain(mean.estimate!.toFixed(2));
    }
    expect(text).not.toMatch(/of \d+ boxes/);
  });

  it("puts the reader's own climate group first and open, and says that it is theirs", () => {
    const markup = render(publish(rows), ["Csa"]);
    const order = [...markup.matchAll(/<div id="group-(\w+)"/g)].map(([, code]) => code);
    expect(order).toEqual(["Csa", "Csb", "Cfb"]);
    expect(markup.match(/Your climate group/g)).toHaveLength(2);
    const folds = [...markup.matchAll(/<details([^>]*)>(?:(?!<details).)*?<div id="group-(\w+)"/gs)];
    expect(folds.map(([, attributes, code]) => [code, / open=""/.test(attributes!)])).toEqual([
      ["Csa", true],
      ["Csb", false],
      ["Cfb", false],
    ]);
  });

  it("leads every link of its contents to a place inside a fold or on the page", () => {
    const markup = render(publish(rows));
    const links = [...markup.matchAll(/href="#([^"]+)"/g)].map(([, id]) => id!);
    expect(links.length).toBeGreaterThan(6);
    for (const id of links) expect(markup).toContain(`id="${id}"`);
  });

  it("shows an older engine's result without a model, and says so", () => {
    const text = words(render({ ...publish(rows), analysis: null }));
    expect(text).toContain("Worked out by an older engine");
    expect(text).not.toMatch(/NaN|undefined|null/);
  });
});

describe("what a group's results leave open", () => {
  const cells = [
    { arm: "arm0", estimate: 3, mayBeBest: true },
    { arm: "arm1", estimate: 2.4, mayBeBest: true },
    { arm: "arm2", estimate: 1, mayBeBest: false },
  ].map((cell) => ({ band: "Cfb", chanceBest: cell.mayBeBest ? 0.5 : 0, ...cell }));
  const analysis = inventedAnalysis(cells);

  it("names the pair that isn't settled and about how many sets would, and no settled one", () => {
    const text = group(render({ ...pooled, analysis }), "Cfb");
    const sets = pooled.totals.byBand.find(({ band }) => band === "Cfb")!.outings!;
    // Half-width .9 must fall to the difference of .6: n(.9²/.6² − 1) more.
    const more = 1.25 * sets;
    const [, said] = text.match(
      /Whether Rye 1 : 1 \(arm1\) is as good as Rye 1 : 1 \(arm0\)\. About (\d+) more sets/,
    )!;
    expect(Number(said)).toBeGreaterThanOrEqual(more);
    expect(Number(said)).toBeLessThan(more + 5);
    expect(text).not.toMatch(/Whether Spelt/);
    expect(text).toContain("Whether it holds in other seasons");
  });

  it("says what one more grower would see, the leader first", () => {
    const text = group(render({ ...pooled, analysis }), "Cfb");
    expect(text).toMatch(
      /growth of Rye 1 : 1 \(arm0\) less that of Rye 1 : 1 \(arm1\) lies between −1\.8 and 3\.0 in 95 % of cases/,
    );
  });

  it("deals twenty dots to the recipes that may be the best", () => {
    const text = group(render({ ...pooled, analysis }), "Cfb");
    expect(text).toMatch(/Rye 1 : 1 \(arm0\) is best in 10\..*Next to no chance: Spelt 1\.5 : 1\./);
  });
});

describe("usable grain", () => {
  const pair = (second: string, difference: number, lower: number, upper: number) => ({
    ...{ band: "Cfb", first: "arm2", second, method: "TUKEY_KRAMER" as const },
    ...{ difference, se: 40, df: 30, lower, upper, p: 0.04, reason: null },
  });
  const cell = (arm: string, estimate: number | null) => ({
    ...{ band: "Cfb", arm, boxes: 21, outings: 14, growers: 9, estimate, se: 30, df: 30 },
    ...{ lower: estimate && estimate - 60, upper: estimate && estimate + 60 },
    reason: estimate === null ? ("NOT_MEASURED" as const) : null,
  });
  const analysis = inventedAnalysis(
    ["arm0", "arm1", "arm2"].map((arm) => ({
      ...{ band: "Cfb", arm, estimate: 2, chanceBest: 0.3, mayBeBest: true },
    })),
  );
  // The pair with arm0 is stored the other way round.
  const turnedPair = { ...pair("arm2", -130, -250, -10), first: "arm0" };
  const usable = {
    cells: [cell("arm0", 280), cell("arm1", null), cell("arm2", 410)],
    contrasts: [turnedPair],
    reason: null,
  };

  it("stands in grams with its intervals, says who gives less, and that it is secondary", () => {
    const text = words(render({ ...pooled, analysis: { ...analysis, usable } }));
    expect(text).toContain(
      "Most on average: Spelt 1.5 : 1, 410 g a box. Shown to give less: 1 of 1 compared with it.",
    );
    expect(text).toMatch(/Spelt 1\.5 : 1 410 350 to 470 21 14 9 Rye 1 : 1 \(arm0\) 280 220 to 340 21 14 9/);
    expect(text).toMatch(/Spelt 1\.5 : 1 less Rye 1 : 1 \(arm0\) \+130 \+10 to \+250 30 0\.040/);
    expect(text).toContain("Rye 1 : 1 (arm1) not measured for enough boxes");
    expect(text).toContain("A secondary outcome");
  });

  it("names no recipe before the end, and is left out of an earlier engine's result", () => {
    const interim = { look: 1, looks: 3, fraction: 0.52, by: "boxes" as const };
    const open = words(render({ ...pooled, interim, analysis: { ...analysis, usable } }));
    expect(open).toContain("410 350 to 470");
    expect(open).not.toContain("Most on average");
    expect(words(render({ ...pooled, analysis }))).not.toContain("Usable grain");
  });

  it("says so where too few boxes were weighed", () => {
    const none = { cells: [], contrasts: [], reason: "NOT_MEASURED" as const };
    const text = words(render({ ...pooled, analysis: { ...analysis, usable: none } }));
    expect(text).toContain("Usable grain: not measured for enough boxes.");
  });
});

describe("before a trial's end", () => {
  const cells = ["arm0", "arm1", "arm2"].map((arm, place) => ({
    band: "Cfb",
    arm,
    estimate: 3 - place,
    chanceBest: 0,
    mayBeBest: true,
  }));
  const analysis = inventedAnalysis(cells);
  const withheld = {
    ...analysis,
    level: 0.9952,
    cells: analysis.cells.map((one) => ({ ...one, chanceBest: null, chanceBestNextSet: null })),
    contrasts: analysis.contrasts.map((one) => ({ ...one, p: null, verdict: null })),
    best: [],
  };
  const interim = { look: 1, looks: 3, fraction: 0.52, by: "boxes" as const };
  const text = words(render({ ...pooled, level: 0.9952, analysis: withheld, interim }));

  it("is marked as interim with the widened level, and shows no p and no best", () => {
    expect(text).toMatch(/Interim: the trial isn't over\..*Look 1 of 3.*52 %.*99\.52 %/);
    expect(text).not.toMatch(/p = |p < |grew best|Chance to be the best here|would settle/);
    expect(text).not.toContain("95 % interval");
    expect(text).toContain("not shown before the trial's end");
  });
});

describe("a stored result drawn once", () => {
  const result = publish(rows);
  const seen = { newerWanted: false, computedAt: new Date("2026-11-05T13:02:00Z"), ownGroups: [] };

  /** Its markup as a page with these would hold it. */
  async function drawn(stored: object, trial: object = {}): Promise<string> {
    const page = StoredPool({
      trial: { ...inventedTrial, ...trial },
      stored: { resultName: "published 1", result, ...seen, ...stored },
      downloads: null,
    });
    const parts = Children.toArray(page.props.children) as ReactElement<ComponentProps<typeof DrawnOnce>>[];
    const { of, children } = parts.find(({ type }) => type === DrawnOnce)!.props;
    return words((await drawOnce(of, children)).markup);
  }

  it("shows at once whatever changes around it, and then the first again", async () => {
    const first = await drawn({});
    expect(first).toContain("its plan ran to 30 November 2026");
    const later = { ...inventedTrial.plan, endsOn: "2026-12-24" };
    expect(await drawn({}, { plan: later })).toContain("its plan ran to 24 December 2026");
    expect(await drawn({ newerWanted: true })).not.toBe(first);
    expect(await drawn({ computedAt: new Date("2026-11-06T08:15:00Z") })).toContain(
      "6 November 2026 at 08:15",
    );
    expect(await drawn({ ownGroups: ["Csa"] })).toContain("Your climate group");
    expect(await drawn({})).toBe(first);
  });

  it("is never shown for another result or another trial", async () => {
    const other = { ...result, data: { ...result.data, sha256: "0123456789".repeat(6) } };
    expect(await drawn({ resultName: "published 2", result: other })).toContain(other.data.sha256);
    expect(await drawn({})).not.toContain(other.data.sha256);
    const arms = inventedTrial.recipes.map(({ code, content }) => ({
      code,
      content: { ...content, waterToGrain: content.waterToGrain + 1 },
    }));
    expect(await drawn({}, { slug: "other", recipes: arms })).toContain("Spelt 2.5 : 1");
    expect(await drawn({})).not.toContain("Spelt 2.5 : 1");
  });
});
