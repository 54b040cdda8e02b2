import pg from "pg";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { TRUTH } from "@/lib/demo/truth";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { DEMO_CLOSED_TRIAL, DEMO_OPEN_TRIAL } from "../../prisma/seed/trials";
import { launchBrowser } from "../harness/browser";
import { DESK, demoPerson, newGrower, newId, post, stranger, type Visitor } from "./visitor";

/** The figures a stranger reads on the results page, against plain SQL over the tables and the demo's stated truth. */
const RESULTS = `/trials/${DEMO_CLOSED_TRIAL.slug}/results`;

let browser: Browser;
let reader: Visitor;
let lead: Visitor;
let page: Page;
let database: pg.Client;
let recipeNames: Map<string, string>;
let meanOfCell: Map<string, { mean: number; boxes: number; growers: number }>;

beforeAll(async () => {
  browser = await launchBrowser();
  reader = await stranger(browser);
  page = reader.page;
  lead = await demoPerson(browser, "lead");
  database = new pg.Client({ connectionString: inject("app").ownerUrl });
  await database.connect();
  const arms = await database.query<{ code: string; content: VariantContent }>(
    `SELECT a.code, v.content FROM arm a JOIN protocol_variant v ON v.id = a.variant_id
      WHERE a.trial_id = $1 ORDER BY a.position`,
    [DEMO_CLOSED_TRIAL.id],
  );
  recipeNames = new Map(
    arms.rows.map(({ code, content }) => [code, plain(vocabularyMessages.recipeShortName(content))]),
  );
  meanOfCell = await meansBySql();
  await page.goto(RESULTS);
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

/** Rows of a climate group's table of plain means, by recipe name: mean, interval, boxes, sets, growers, lost. */
async function plainMeansOf(band: string): Promise<Map<string, string[]>> {
  const rows = page
    .locator(`#group-${band} table`, { hasText: "Plain means over growers" })
    .locator("tbody tr");
  const cells = await rows.evaluateAll((each) =>
    each.map((row) => [...row.children].map((cell) => (cell.textContent ?? "").trim())),
  );
  return new Map(cells.map(([name, ...rest]) => [plain(name!), rest]));
}

/** The sentence on what to cook in a climate group, from the top of the page. */
async function sentenceOn(band: string): Promise<string> {
  const item = page.locator("main li", { has: page.locator(`a[href="#group-${band}"]`) }).first();
  return plain((await item.textContent())!);
}

function plain(name: string): string {
  return name.replaceAll("\u00a0", " ");
}

describe.each(Object.entries(TRUTH))("the climate group %s", (band, truth) => {
  it("shows the means that the tables give, each with what it rests on", async () => {
    const table = await plainMeansOf(band);
    for (const [code, name] of recipeNames) {
      const [mean, , boxes, , growers] = table.get(name)!;
      const expected = meanOfCell.get(`${band}/${code}`)!;
      expect(Number(mean), `${band} ${name}`).toBeCloseTo(expected.mean, 2);
      expect(Number(boxes)).toBe(expected.boxes);
      expect(Number(growers)).toBe(expected.growers);
    }
  });

  it(truth.bestArm === null ? "names no best where there is none" : "names its best recipe", async () => {
    const sentence = await sentenceOn(band);
    if (truth.bestArm === null) {
      expect(sentence).not.toMatch(/grew best here/);
      return;
    }
    const best = [...recipeNames.values()][truth.bestArm]!;
    expect(sentence).toMatch(/grew (best|most) here/);
    expect(sentence.indexOf(best)).toBeLessThan(sentence.search(/grew (best|most) here/));
    expect(sentence.indexOf(best)).toBeGreaterThanOrEqual(0);
  });
});

describe("the page of a closed trial", () => {
  it("shows the SHA-256 of the rows behind it, the one stored", async () => {
    const { rows } = await database.query(
      "SELECT published -> 'data' ->> 'sha256' AS sha256 FROM pool_result WHERE trial_id = $1",
      [DEMO_CLOSED_TRIAL.id],
    );
    expect(await page.locator("main").textContent()).toContain(rows[0].sha256);
  });

  it("opens the folded part a link at the top leads to", async () => {
    const place = page.locator("#losses");
    expect(await place.isVisible()).toBe(false);
    await page
      .getByRole("navigation", { name: "On this page" })
      .getByRole("link", { name: "Lost boxes" })
      .click();
    await place.waitFor({ state: "visible" });
    const straight = await stranger(browser);
    await straight.page.goto(`${RESULTS}#agreement`);
    await straight.page.locator("#agreement").waitFor({ state: "visible" });
    await straight.context.close();
  });

  it("stands whole for who comes by a link, goes on, comes back, or runs no script", async () => {
    const tables = await page.locator("main table").count();
    expect(tables).toBeGreaterThan(20);
    const other = await stranger(browser);
    const isWhole = () =>
      other.page.waitForFunction((n) => document.querySelectorAll("main table").length === n, tables);
    await other.page.goto(`/trials/${DEMO_CLOSED_TRIAL.slug}`);
    await other.page.locator(`main a[href="${RESULTS}"]`).first().click();
    await isWhole();
    await other.page.goto(RESULTS);
    await other.page
      .getByRole("navigation", { name: "On this page" })
      .getByRole("link", { name: "Lost boxes" })
      .click();
    await other.page.getByRole("link", { name: "Question, recipes and plan" }).click();
    await other.page.waitForURL((url) => url.pathname === `/trials/${DEMO_CLOSED_TRIAL.slug}`);
    await other.page.goBack();
    await isWhole();
    expect(await other.page.locator("#losses").isVisible(), "the part opened before").toBe(true);
    await other.context.close();
    const html = await (await reader.context.request.get(RESULTS)).text();
    expect(html.split("<table").length - 1).toBe(tables);
  });

  it("shows the result of a newer cut at the next request", async () => {
    const show = (cut: string) =>
      database.query("UPDATE pool_state SET cut_sha256 = $2 WHERE trial_id = $1", [
        DEMO_CLOSED_TRIAL.id,
        cut,
      ]);
    const sha256 = async (): Promise<string> => {
      const html = await (await reader.context.request.get(RESULTS)).text();
      return html.match(/>([0-9a-f]{64})</)![1]!;
    };
    const { rows } = await database.query<{ cut: string }>(
      "SELECT cut_sha256 AS cut FROM pool_state WHERE trial_id = $1",
      [DEMO_CLOSED_TRIAL.id],
    );
    const before = await sha256();
    const newer = "0123456789abcdef".repeat(4);
    await database.query(
      `INSERT INTO pool_result (id, trial_id, cut_sha256, engine, boxes, result, published)
        SELECT $3, trial_id, $2, engine, boxes, result, jsonb_set(published, '{data,sha256}', to_jsonb($2::text))
          FROM pool_result WHERE trial_id = $1`,
      [DEMO_CLOSED_TRIAL.id, newer, newId()],
    );
    await show(newer);
    expect(await sha256()).toBe(newer);
    await show(rows[0]!.cut);
    expect(await sha256()).toBe(before);
  });

  it("shows a grower their own climate group first and open", async () => {
    const grower = await newGrower(browser, "Olga");
    const site = { id: newId(), name: "Dry slope", latitude: 41.6, longitude: -0.9, elevationM: 250 };
    const { band } = await siteAndBand(grower, site);
    await grower.page.goto(RESULTS);
    const first = grower.page.locator('[id^="group-"]').first();
    expect(await first.getAttribute("id")).toBe(`group-${band}`);
    expect(await first.isVisible()).toBe(true);
    await grower.page.getByText("Your climate group").first().waitFor();
    await grower.context.close();
  });

  it("hands out its figures as CSV, the same as on the page", async () => {
    const answer = await reader.context.request.get(`${RESULTS}/figures`);
    expect(answer.status()).toBe(200);
    expect(answer.headers()["content-type"]).toBe("text/csv; charset=utf-8");
    const lines = (await answer.text()).split("\r\n").map((line) => line.split(","));
    const [names] = lines;
    const at = (column: string) => names!.indexOf(column);
    for (const [cell, expected] of meanOfCell) {
      const [band, arm] = cell.split("/");
      const line = lines.find(
        (one) => one[0] === "mean-over-growers" && one[at("band")] === band && one[at("first")] === arm,
      )!;
      expect(Number(line[at("estimate")])).toBeCloseTo(expected.mean, 9);
    }
  });
});

async function siteAndBand(grower: Visitor, site: object & { id: string }): Promise<{ band: string }> {
  expect((await post(grower, "sites", site)).status()).toBeLessThan(300);
  const { rows } = await database.query<{ band: string }>(
    `SELECT g ->> 'code' AS band FROM trial, jsonb_array_elements(grouping) g, site
      WHERE trial.id = $1 AND site.id = $2 AND g -> 'classes' ? site.koppen_class`,
    [DEMO_CLOSED_TRIAL.id, site.id],
  );
  expect(rows).toHaveLength(1);
  return rows[0]!;
}

describe("what only the lead sees", () => {
  const LEAD_RESULTS = `/lead/trials/${DEMO_CLOSED_TRIAL.id}/results`;

  it("is each grower's own difference, and who moves the answer most", async () => {
    await lead.page.setViewportSize(DESK);
    await lead.page.goto(`/lead/trials/${DEMO_CLOSED_TRIAL.id}`);
    await lead.page.getByRole("link", { name: "Results", exact: true }).click();
    await lead.page.waitForURL((url) => url.pathname === LEAD_RESULTS);
    await lead.page
      .getByRole("navigation", { name: "On this page" })
      .getByRole("link", { name: "By grower" })
      .click();
    const part = lead.page.locator("#growers");
    await part.waitFor({ state: "visible" });
    expect(await part.textContent()).toMatch(/moves it most/);
    expect(await page.locator("main").textContent()).not.toMatch(/moves it most/);
  });

  it("is the rows, one for every drawn box", async () => {
    const answer = await lead.context.request.get(`${LEAD_RESULTS}/rows`);
    expect(answer.status()).toBe(200);
    const { rows } = await database.query<{ n: number }>(
      `SELECT count(*)::int AS n FROM allocation JOIN box ON box.id = allocation.box_id
        JOIN outing ON outing.id = box.outing_id WHERE outing.trial_id = $1`,
      [DEMO_CLOSED_TRIAL.id],
    );
    expect((await answer.text()).trimEnd().split("\r\n")).toHaveLength(rows[0]!.n + 1);
  });

  it("is refused to anyone else, and to the lead while the trial is open", async () => {
    const status = async (who: Visitor, path: string) => (await who.context.request.get(path)).status();
    expect(await status(reader, `${LEAD_RESULTS}/rows`)).toBe(401);
    const grower = await demoPerson(browser, "grower");
    expect(await status(grower, `${LEAD_RESULTS}/rows`)).toBe(404);
    expect(await status(grower, `${LEAD_RESULTS}/figures`)).toBe(404);
    expect(await status(grower, LEAD_RESULTS)).toBe(404);
    const open = `/lead/trials/${DEMO_OPEN_TRIAL.id}/results`;
    expect(await status(lead, `${open}/rows`)).toBe(409);
    expect(await status(lead, `${open}/figures`)).toBe(409);
    expect(await status(reader, `/trials/${DEMO_OPEN_TRIAL.slug}/results/figures`)).toBe(409);
    await lead.page.goto(open);
    expect(await lead.page.locator("main").textContent()).toMatch(/sees everyone's growth by recipe until/);
  });
});
