import AxeBuilder from "@axe-core/playwright";
import pg from "pg";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { DEMO_CLOSED_TRIAL, DEMO_OPEN_TRIAL } from "../../prisma/seed/trials";
import { launchBrowser } from "../harness/browser";
import { type Belongings, gradeOf, planSet } from "./growing";
import { DESK, demoPerson, newGrower, newId, PHONE, post, stranger, type Visitor } from "./visitor";

/** axe-core by the WCAG 2.2 AA tags, on every page with all its folds open, on a phone and a desk. */
const TAGS = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

/** What depends on the theme and not on the width: asked again in the dark, and not again on the desk. */
const COLOUR_RULES = ["color-contrast", "link-in-text-block"];

let browser: Browser;
let grower: Visitor;
let owned: Belongings;
let ledTrialId = "";
/** Of a recorded box with own words. */
let boxCode = "";
const people = {} as Record<"nobody" | "grower" | "lead" | "admin", Visitor>;

beforeAll(async () => {
  browser = await launchBrowser();
  grower = await newGrower(browser, "Ines");
  owned = await planSet(grower);
  await post(grower, "draws", { id: newId(), outingId: owned.outingId });
  await post(grower, "grades", gradeOf(owned.boxIds[0]!, 45));
  people.nobody = await stranger(browser);
  people.grower = grower;
  people.lead = await demoPerson(browser, "lead");
  people.admin = await demoPerson(browser, "admin");
  const database = new pg.Client({ connectionString: inject("app").ownerUrl });
  await database.connect();
  ledTrialId = (await database.query("SELECT id FROM trial WHERE status = 'open' LIMIT 1")).rows[0].id;
  boxCode = (await database.query("SELECT code FROM box WHERE id = $1", [owned.boxIds[0]])).rows[0].code;
  await database.end();
});
afterAll(() => browser.close());

const pages: readonly (readonly [who: keyof typeof people, path: () => string])[] = [
  ["nobody", () => "/"],
  ["nobody", () => "/trials"],
  ["nobody", () => `/trials/${DEMO_OPEN_TRIAL.slug}`],
  ["nobody", () => `/trials/${DEMO_OPEN_TRIAL.slug}/results`],
  ["nobody", () => `/trials/${DEMO_CLOSED_TRIAL.slug}/results`],
  ["nobody", () => `/trials/${DEMO_OPEN_TRIAL.slug}/proof?receipt=none`],
  ["nobody", () => `/trials/${DEMO_CLOSED_TRIAL.slug}/proof`],
  ["nobody", () => `/trials/${DEMO_CLOSED_TRIAL.slug}`],
  ["nobody", () => `/join/${DEMO_OPEN_TRIAL.joinCode}`],
  ["nobody", () => "/sign-in"],
  ["nobody", () => "/sign-up"],
  ["nobody", () => "/forgot-password"],
  ["nobody", () => "/unsubscribe?token=none"],
  ["nobody", () => "/health"],
  ["nobody", () => "/nowhere"],
  ["grower", () => "/account"],
  ["grower", () => `/join/${DEMO_OPEN_TRIAL.joinCode}`],
  ["grower", () => "/sites"],
  ["grower", () => "/sites/new"],
  ["grower", () => "/my-things"],
  ["grower", () => `/sites/${owned.siteId}`],
  ["grower", () => `/sites/${owned.siteId}/edit`],
  ["grower", () => "/variants"],
  ["grower", () => "/variants/new"],
  ["grower", () => "/outings"],
  ["grower", () => `/outings/new?trial=${DEMO_OPEN_TRIAL.slug}`],
  ["grower", () => `/outings/${owned.outingId}`],
  ["grower", () => `/outings/${owned.outingId}/boxes/2/grade`],
  ["lead", () => "/lead"],
  ["lead", () => "/lead/trials/new"],
  ["lead", () => `/lead/trials/${ledTrialId}`],
  ["lead", () => `/lead/trials/${ledTrialId}/results`],
  ["lead", () => `/lead/trials/${DEMO_CLOSED_TRIAL.id}/results`],
  ...["people", "people?group=unrecorded", "letters", "corrections", "told", "pause", "leads"].map(
    (part): readonly ["lead", () => string] => ["lead", () => `/lead/trials/${ledTrialId}/${part}`],
  ),
  ["lead", () => `/lead/trials/${DEMO_OPEN_TRIAL.id}/boxes/${boxCode}`],
  ["lead", () => `/lead/trials/${ledTrialId}/recruit`],
  ["lead", () => `/lead/trials/${ledTrialId}/export`],
  ["lead", () => `/lead/trials/${ledTrialId}/copy`],
  ["admin", () => "/admin"],
  ["admin", () => "/admin/mails"],
];

describe("no page has anything for axe to report, or scrolls sideways", () => {
  it.each(pages)("%s: page %#", async (who, path) => {
    const { page } = people[who];
    await page.setViewportSize(PHONE);
    await page.emulateMedia({ colorScheme: "light" });
    await page.goto(path(), { waitUntil: "load" });
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll("details")) fold.open = true;
    });
    expect(await faults(page, new AxeBuilder({ page }).withTags(TAGS))).toEqual([]);
    await page.emulateMedia({ colorScheme: "dark" });
    expect(await faults(page, new AxeBuilder({ page }).withRules(COLOUR_RULES))).toEqual([]);
    await page.setViewportSize(DESK);
    expect(
      await faults(page, new AxeBuilder({ page }).withTags(TAGS).disableRules([...COLOUR_RULES])),
    ).toEqual([]);
  });
});

/** What axe finds on the page as it stands, and whether it is wider than its window. */
async function faults(page: Page, axe: AxeBuilder): Promise<string[]> {
  const { violations } = await axe.analyze();
  const found = violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join(" | ")}`);
  const [wanted, window] = await page.evaluate(() => [
    document.documentElement.scrollWidth,
    document.documentElement.clientWidth,
  ]);
  return wanted! > window! ? [...found, `scrolls sideways: ${wanted} px in ${window}`] : found;
}
