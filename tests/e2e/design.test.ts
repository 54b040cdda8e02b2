import AxeBuilder from "@axe-core/playwright";
import pg from "pg";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { launchBrowser } from "../harness/browser";
import { DESK, demoPerson, PHONE, stranger, type Visitor } from "./visitor";

/** A lead plans and opens a trial from nothing, in the browser; a stranger reads what was promised. */
const TITLE = "Planned from nothing (invented)";
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
const DAY_MS = 86_400_000;
const dayIn = (days: number) => new Date(Date.now() + days * DAY_MS).toISOString().slice(0, 10);

let browser: Browser;
let database: pg.Client;
let lead: Visitor;
let reader: Visitor;
let page: Page;
let draftPath = "";
let publicPath = "";

beforeAll(async () => {
  browser = await launchBrowser();
  database = new pg.Client({ connectionString: inject("app").ownerUrl });
  await database.connect();
  lead = await demoPerson(browser, "lead");
  reader = await stranger(browser);
  page = lead.page;
});
afterAll(async () => {
  await database.end();
  await browser.close();
});

async function looksWell(visitor: Visitor, paths: readonly string[]): Promise<void> {
  for (const colorScheme of ["light", "dark"] as const) {
    await visitor.page.emulateMedia({ colorScheme });
    for (const viewport of [PHONE, DESK]) {
      await visitor.page.setViewportSize(viewport);
      for (const path of paths) {
        await visitor.page.goto(path, { waitUntil: "load" });
        const { violations } = await new AxeBuilder({ page: visitor.page }).withTags(TAGS).analyze();
        const found = violations.map(
          ({ id, nodes }) => `${path} ${id}: ${nodes.map(({ html }) => html).join()}`,
        );
        expect(found).toEqual([]);
        const width = await visitor.page.evaluate(() => document.documentElement.scrollWidth);
        expect(width, `${path} scrolls sideways at ${viewport.width} px`).toBeLessThanOrEqual(viewport.width);
      }
    }
  }
}

async function storedChoices(): Promise<Record<string, unknown>> {
  const { rows } = await database.query("SELECT plan_choices FROM trial WHERE title = $1", [TITLE]);
  return rows[0].plan_choices;
}

describe("a draft", () => {
  it("is made before it has any recipe, and can be changed", async () => {
    await page.goto("/lead/trials/new");
    await page.getByLabel("Title").fill("Planned from nothing");
    await page.getByLabel("Question").fill("Which recipe takes best? Invented for a test.");
    await page.getByLabel("Fewest boxes in a set").fill("3");
    await page.getByLabel("Most boxes in a set").fill("4");
    await page.getByLabel("Last day").fill(dayIn(60));
    await page.getByLabel("Seats in North shore (invented)").fill("48");
    await page.getByRole("button", { name: "Make the draft" }).click();
    await page.getByText("Add recipes first").first().waitFor();
    draftPath = new URL(page.url()).pathname;
    await page.getByRole("link", { name: "Question, boxes, end and climate groups" }).click();
    expect(await page.getByLabel("Seats in North shore (invented)").inputValue()).toBe("48");
    await page.getByLabel("Title").fill(TITLE);
    await page.getByLabel("Groups", { exact: true }).fill("mild-wet: Cfa, Cfb\ndry: BSh, BSk");
    await page.getByRole("button", { name: "Save" }).click();
    await page.getByRole("heading", { name: TITLE }).waitFor();
    expect(await page.getByText("BSh, BSk").count()).toBe(1);
  });

  it("is planned without a recipe: designs, what they find, advice and the curve", async () => {
    await page.getByRole("link", { name: "How many growers, how many boxes" }).click();
    await page.getByLabel("Number of recipes", { exact: true }).fill("12");
    for (const group of ["Mild wet", "Dry"]) await page.getByLabel(`Growers, ${group}`).fill("40");
    await page.getByRole("button", { name: "Work it out" }).click();
    await page.getByText(/12 recipes are too many for 40 growers; \d+ would do\./).waitFor();
    const table = page.getByRole("region", { name: /^Designs, in each climate group/ }).first();
    expect(await table.getByRole("row").count()).toBeGreaterThan(3);
    await page.locator("svg.recharts-surface path.recharts-line-curve").first().waitFor();
    expect(await page.getByRole("row", { name: /^40, as planned/ }).count()).toBe(1);
  });

  it("says at the field and in a list what it can't work with", async () => {
    await page.goto(`${draftPath}/design?show=1&as=list&count=1&difference=0&sd.residual=-1&growers.dry=0`);
    for (const [label, fault] of [
      ["Number of recipes", "A trial compares from 2 to 24 recipes."],
      ["Difference in mean growth", "Above 0 and up to 4, the width of the scale."],
      ["Between boxes of one set", "Above 0 and up to 10: no two boxes are the same."],
      ["Growers, Dry", "a climate group without growers can’t answer anything"],
    ] as const) {
      expect(await page.getByRole("link", { name: label, exact: true }).count(), label).toBe(1);
      const field = page.getByLabel(label, { exact: true });
      expect(await field.getAttribute("aria-invalid"), label).toBe("true");
      const described = (await field.getAttribute("aria-describedby"))!.split(" ").at(-1)!;
      expect(await page.locator(`[id="${described}"]`).textContent()).toContain(fault);
    }
    expect(await page.getByRole("region", { name: /^Designs/ }).count()).toBe(0);
  });

  it("tells when the sets can't link the recipes", async () => {
    await page.goto(
      `${draftPath}/design?show=1&count=24&boxesMin=2&boxesMax=2&growers.dry=2&growers.mild-wet=2&sets.dry=1&sets.mild-wet=1`,
    );
    await page.getByText(/No climate group can link all these recipes/).waitFor();
  });

  it("works its design out without scripts, as far as the tables go", async () => {
    const context = await browser.newContext({
      baseURL: inject("app").origin,
      javaScriptEnabled: false,
      storageState: await lead.context.storageState(),
    });
    const plain = await context.newPage();
    await plain.goto(`${draftPath}/design`);
    await plain.getByText("Grains by water").click();
    await plain.getByLabel("millet", { exact: true }).check();
    await plain.getByLabel("spelt", { exact: true }).check();
    await plain.getByLabel("Water ratios").fill("0.9 1,4");
    await plain.getByRole("button", { name: "Work it out" }).click();
    await plain
      .getByText(/^4 recipes, sets of 3 to 4 boxes|4 recipes, sets of/)
      .first()
      .waitFor();
    expect(await plain.getByRole("region", { name: "The same in numbers" }).count()).toBeGreaterThan(0);
    await context.close();
  });

  it("takes the figures of a design into its plan", async () => {
    await page.goto(
      `${draftPath}/design?show=1&count=4&growers.dry=30&growers.mild-wet=40&margin=0.6&again=30`,
    );
    await page.getByRole("button", { name: "Take them into the plan" }).click();
    await page.getByText("The plan holds these figures now.").waitFor();
    const choices = await storedChoices();
    expect(choices).toMatchObject({
      margin: 0.6,
      meetAgainShare: 0.3,
      sampleSize: { growersPerGroup: 30, setsPerGrower: 2, difference: 0.75, sdFrom: "assumed" },
    });
  });

  it("keeps what is chosen about deciding, and says what can't be", async () => {
    await page.goto(draftPath);
    await page.getByRole("link", { name: /^Recipes/ }).click();
    for (const nth of [0, 1, 2, 3]) await page.getByRole("checkbox").nth(nth).check();
    await page.getByRole("button", { name: "Add those ticked" }).click();
    await page.getByText("What you ticked is in.").waitFor();
    await page.getByRole("link", { name: "How it is decided" }).click();
    await page.getByText("Every recipe with one you name").click();
    await page.getByLabel("The one to compare with").selectOption("B");
    await page.getByLabel("Looks at results by recipe").selectOption("3");
    await page.getByText("On a day picked for each set").click();
    await page.getByLabel("Days after they were set out").fill("4 4");
    await page.getByText("Once every recipe has enough everywhere").click();
    await page.getByRole("button", { name: "Save" }).click();
    await page.getByRole("link", { name: "Days after they were set out" }).waitFor();
    expect(await page.getByText("A day stands there twice.").count()).toBe(2);
    expect(await page.getByLabel("The one to compare with").inputValue()).toBe("B");
    await page.getByLabel("Days after they were set out").fill("6 4");
    await page.getByRole("button", { name: "Save" }).click();
    await page.waitForURL((url) => url.pathname === draftPath);
    expect(await storedChoices()).toMatchObject({
      primaryComparison: { kind: "against-reference", arm: "B" },
      looks: { count: 3 },
      earlyCloseRule: "every-cell-at-minimum",
      fetchRule: { kind: "staged" },
      sampleSize: { growersPerGroup: 30 },
    });
    expect(await page.getByText("4 or 6 days after they were set out").count()).toBe(1);
    // What is complete is folded away, and one tap away.
    const takeOut = page.getByRole("button", { name: "Take out A" });
    expect(await takeOut.isVisible()).toBe(false);
    await page.getByRole("link", { name: /^Recipes/ }).click();
    await takeOut.waitFor();
  });

  it("is readable on a phone and a desk, in both themes", async () => {
    await looksWell(lead, [
      draftPath,
      `${draftPath}/edit`,
      `${draftPath}/plan`,
      `${draftPath}/design`,
      `${draftPath}/design?show=1&count=6&cleanBase=40&cleanMore=20`,
      `${draftPath}/design?show=1&as=grid&margin=9`,
    ]);
  });
});

describe("once opened", () => {
  it("stands as it was read, hashed, for anyone", async () => {
    await page.setViewportSize(DESK);
    await page.goto(draftPath);
    await page.getByLabel("I have read the plan; from here on it stands.").check();
    await page.getByRole("button", { name: "Open it" }).click();
    await page.getByRole("heading", { name: "Invite growers" }).waitFor();
    publicPath = (await page.getByRole("link", { name: "The trial's public page" }).getAttribute("href"))!;
    await reader.page.goto(publicPath);
    const text = (await reader.page.locator("main").textContent())!;
    for (const promise of [
      /every recipe with .* \(B\), within a climate group/,
      /less than 0\.60 apart/,
      /30 growers in a climate group with 2 sets of \d boxes each, among 4 recipes, find a difference of 0\.75/,
      /3, the one at the end included/,
      /4 or 6 days after they were set out, picked by chance/,
      /30 % of a grower’s later sets/,
    ]) {
      expect(text.replaceAll("\u00a0", " ")).toMatch(promise);
    }
    const { rows } = await database.query("SELECT plan_hash FROM trial WHERE title = $1", [TITLE]);
    expect(text).toContain(rows[0].plan_hash);
  });

  it("prints what a report of a randomised trial needs, by the numbers of CONSORT 2025", async () => {
    // Item numbers: Hopewell et al., CONSORT 2025 statement, BMJ 2025;389:e081123, Table 1.
    const numbers = await reader.page.locator("dl dt > span.font-mono").allTextContents();
    expect(numbers).toEqual(["9", "16a", "16b", "17a", "17b", "18", "19", "20a", "20b"]);
    expect(await reader.page.getByRole("link", { name: /receipt|Check every pick/ }).count()).toBe(1);
  });

  it("is amended with a date and a reason, and keeps what it promised", async () => {
    await page.goto(draftPath);
    await page.getByText("Amend the plan").click();
    await page.getByText("The last day", { exact: true }).last().click();
    await page.getByLabel("New last day").fill(dayIn(30));
    await page.getByLabel("Reason").fill("Sooner, for a test.");
    await page.getByRole("button", { name: "Amend", exact: true }).click();
    await page.getByText("By its plan the trial may not close early").waitFor();
    await page.getByLabel("New last day").fill(dayIn(90));
    await page.getByRole("button", { name: "Amend", exact: true }).click();
    await page.getByText("The amendment stands, and everyone can read it.").waitFor();
    await reader.page.reload();
    expect(await reader.page.getByText("Reason: Sooner, for a test.").count()).toBe(1);
    expect(await reader.page.getByText(/\(amended: /).count()).toBe(1);
  });

  it("can't be closed before its plan lets it", async () => {
    await page.goto(draftPath);
    await page.getByText(/close early only once every recipe has its minimum/).waitFor();
    expect(await page.getByRole("button", { name: "Close it" }).count()).toBe(0);
  });

  it("has its design shown without outcomes, and reads well everywhere", async () => {
    await page.goto(`${draftPath}/design`);
    await page.getByText("No set of boxes has been drawn yet").waitFor();
    await looksWell(lead, [draftPath, `${draftPath}/design`]);
    await looksWell(reader, [publicPath]);
  });
});
