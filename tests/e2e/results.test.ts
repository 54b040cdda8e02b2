import pg from "pg";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { TRUTH } from "@/lib/demo/truth";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { DEMO_CLOSED_TRIAL } from "../../prisma/seed/trials";
import { launchBrowser } from "../harness/browser";
import { stranger } from "./visitor";

/** The figures a stranger reads on the results page, against plain SQL over the tables and the demo's stated truth. */
let browser: Browser;
let page: Page;
let database: pg.Client;
let recipeNames: Map<string, string>;
let bandOfArm: Map<string, { mean: number; boxes: number; growers: number }>;

beforeAll(async () => {
  browser = await launchBrowser();
  ({ page } = await stranger(browser));
  database = new pg.Client({ connectionString: inject("app").ownerUrl });
  await database.connect();
  const arms = await database.query<{ code: string; content: VariantContent }>(
    `SELECT a.code, v.content FROM arm a JOIN protocol_variant v ON v.id = a.variant_id
      WHERE a.trial_id = $1 ORDER BY a.position`,
    [DEMO_CLOSED_TRIAL.id],
  );
  recipeNames = new Map(arms.rows.map(({ code, content }) => [code, vocabularyMessages.recipeName(content)]));
  bandOfArm = await meansBySql();
  await page.goto(`/trials/${DEMO_CLOSED_TRIAL.slug}/results`);
});
afterAll(async () => {
  await database.end();
  await browser.close();
});

/** Mean over households of each one's own mean, from the latest unmasked record of the boxes' own grower. */
async function meansBySql() {
  const { rows } = await database.query<{
    band: string;
    arm: string;
    mean: number;
    boxes: number;
    growers: number;
  }>(
    `WITH latest AS (
       SELECT DISTINCT ON (g.box_id) g.box_id, g.take
         FROM grade g JOIN box b ON b.id = g.box_id JOIN outing o ON o.id = b.outing_id
        WHERE o.trial_id = $1 AND NOT g.masked AND g.grader_id = o.grower_id
        ORDER BY g.box_id, g.revision DESC),
     own AS (
       SELECT o.band, a.code AS arm, o.enrolment_id, avg(l.take) AS mean, count(*) AS boxes
         FROM latest l JOIN box b ON b.id = l.box_id JOIN outing o ON o.id = b.outing_id
         JOIN allocation al ON al.box_id = b.id JOIN arm a ON a.id = al.arm_id
        WHERE l.take IS NOT NULL AND NOT EXISTS (
          SELECT FROM box_event e WHERE e.box_id = b.id AND e.kind = 'growth-not-recordable')
        GROUP BY 1, 2, 3)
     SELECT band, arm, avg(mean)::float8 AS mean, sum(boxes)::int AS boxes, count(*)::int AS growers
       FROM own GROUP BY 1, 2`,
    [DEMO_CLOSED_TRIAL.id],
  );
  return new Map(rows.map(({ band, arm, ...cell }) => [`${band}/${arm}`, cell]));
}

/** Rows of a climate group's first table, by recipe name: mean, interval, boxes, sets, growers, lost. */
async function tableOf(band: string): Promise<Map<string, string[]>> {
  const rows = page.locator(`#group-${band} table`).first().locator("tbody tr");
  const cells = await rows.evaluateAll((each) =>
    each.map((row) => [...row.children].map((cell) => (cell.textContent ?? "").trim())),
  );
  return new Map(cells.map(([name, ...rest]) => [name!.replaceAll("\u00a0", " "), rest]));
}

const plain = (name: string) => name.replaceAll("\u00a0", " ");

describe.each(Object.entries(TRUTH))("the climate group %s", (band, truth) => {
  it("shows the means that the tables give, each with what it rests on", async () => {
    const table = await tableOf(band);
    for (const [code, name] of recipeNames) {
      const [mean, , boxes, , growers] = table.get(plain(name))!;
      const expected = bandOfArm.get(`${band}/${code}`)!;
      expect(Number(mean), `${band} ${name}`).toBeCloseTo(expected.mean, 2);
      expect(Number(boxes)).toBe(expected.boxes);
      expect(Number(growers)).toBe(expected.growers);
    }
  });

  it(
    truth.bestArm === null ? "claims no difference where there is none" : "finds its best recipe",
    async () => {
      const headline = plain((await page.locator(`#group-${band} summary`).textContent())!);
      if (truth.bestArm === null) {
        expect(headline).not.toMatch(/the recipes do differ/);
        return;
      }
      const best = [...recipeNames.values()][truth.bestArm]!;
      expect(headline).toContain(plain(best));
      expect(headline).toMatch(/the recipes do differ/);
    },
  );
});

it("shows the SHA-256 of the rows behind it, the one stored", async () => {
  const { rows } = await database.query("SELECT cut_sha256 FROM pool_result WHERE trial_id = $1", [
    DEMO_CLOSED_TRIAL.id,
  ]);
  expect(await page.locator("main").textContent()).toContain(rows[0].cut_sha256);
});
