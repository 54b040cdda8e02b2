import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { PoolView } from "@/app/trials/[slug]/results/_components/pool-view";
import { poolTrial } from "@/lib/engine/statistics/pool-trial";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import type { TrialView } from "@/lib/services/read-trials";
import type { PoolRow } from "@/shared/schemas/pool";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { simulateTrial } from "@/tests/engine/statistics/simulated-trial";

/** All data here are invented. */
const recipe = (grain: VariantContent["grain"], waterToGrain: number): VariantContent => ({
  grain,
  form: "whole",
  rinsed: false,
  soakHours: 0,
  waterToGrain,
  ratioBasis: "mass",
  cookMethod: "absorption",
  cookMinutes: 20,
  cooling: "spread-thin",
});

const trial = {
  status: "closed",
  closedAt: new Date("2026-11-05T13:00:00Z"),
  grouping: [
    { code: "Csb", classes: ["Csb"] },
    { code: "Cfb", classes: ["Cfb"] },
    { code: "Csa", classes: ["Csa"] },
    { code: "Dfb", classes: ["Dfb"] },
  ],
  regions: [{ code: "north", name: "North shore", capacity: 30, seatsTaken: 20 }],
  recipes: [
    { code: "arm0", content: recipe("rye", 1), moisture: null },
    { code: "arm1", content: recipe("rye", 1), moisture: null },
    { code: "arm2", content: recipe("spelt", 1.5), moisture: null },
  ],
  plan: { endsOn: "2026-11-30", minimum: { boxesPerCell: 5, growersPerCell: 3 } },
} as unknown as TrialView;

/** The section of a climate group without its tags. */
function group(markup: string, code: string): string {
  const from = markup.indexOf(`<details id="group-${code}"`);
  expect(from).toBeGreaterThan(0);
  const next = markup.indexOf('<details id="', from + 1);
  return words(markup.slice(from, next < 0 ? undefined : next));
}

function words(markup: string): string {
  return markup
    .replaceAll(/<[^>]+>/g, " ")
    .replaceAll("&#x27;", "'")
    .replaceAll(/\s+/g, " ");
}

function render(rows: readonly PoolRow[]): string {
  const published = withholdSmallCells(poolTrial(rows, { permutations: 199 }), rows);
  const computedAt = new Date("2026-11-05T13:02:00Z");
  return renderToStaticMarkup(
    <PoolView trial={trial} final={{ state: "out", published, computedAt, newerWanted: false }} />,
  );
}

const simulated = simulateTrial(
  { growers: 40, arms: 3, growerArmSd: 0.3, armEffects: [0, 0, 1.5] },
  "pool view",
);
const rows = simulated.map((row) => ({ ...row, region: "north" }));

describe("a stored result as a page", () => {
  it("carries every mean and what it rests on in the markup the server sends", () => {
    const markup = render(rows);
    for (const { band, arm, mean, counts } of poolTrial(rows, { permutations: 199 }).cells) {
      const name = arm === "arm2" ? "Spelt 1.5 : 1 by weight" : `Rye 1 : 1 by weight \\(${arm}\\)`;
      const figures = [mean.boxes, mean.outings, mean.growers, counts.lost].join(" ");
      const row = `${name} ${mean.estimate!.toFixed(2)} \\S+ to \\S+ ${figures} `;
      expect(group(markup, band)).toMatch(new RegExp(row));
    }
    expect(words(markup)).toContain("closed early, on 5 November 2026; its plan ran to 30 November 2026");
    expect(words(markup)).toContain("Not enough yet: no box from Cold winters, warm summers");
    expect(markup).toContain(poolTrial(rows, { permutations: 199 }).data.sha256);
  });

  it("says that a small group is held back, and shows none of its figures", () => {
    const twoGrowers = [
      ...new Set(rows.filter(({ band }) => band === "Csa").map(({ grower }) => grower)),
    ].slice(0, 2);
    const few = rows.filter(({ band, grower }) => band !== "Csa" || twoGrowers.includes(grower));
    const text = group(render(few), "Csa");
    expect(text).toContain("held back: too few households or boxes");
    expect(text).toContain("Not enough yet to say anything here.");
    for (const { mean } of poolTrial(few, { permutations: 199 }).cells.filter(({ band }) => band === "Csa")) {
      expect(text).not.toContain(mean.estimate!.toFixed(2));
    }
    expect(text).not.toMatch(/of \d+ boxes/);
  });
});
