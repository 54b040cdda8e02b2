import { AxeBuilder } from "@axe-core/playwright";
import pg from "pg";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { DEMO_OPEN_TRIAL } from "../../prisma/seed/trials";
import { launchBrowser } from "../harness/browser";
import { type Belongings, gradeOf, PRIVATE_NOTE, planSet, setOf } from "./growing";
import { demoPerson, newGrower, newId, PHONE, post, stranger, type Visitor } from "./visitor";

/** A lead at the desk and one grower, on phones: a letter, a correction, a pause. */
let browser: Browser;
let database: pg.Client;
let lead: Visitor;
let grower: Visitor;
let owned: Belongings;
let boxCode = "";

const desk = `/lead/trials/${DEMO_OPEN_TRIAL.id}`;
const WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];

async function isAccessible({ page }: Visitor): Promise<void> {
  const { violations } = await new AxeBuilder({ page }).withTags(WCAG).analyze();
  expect(violations.map(({ id, nodes }) => `${page.url()} ${id} ${nodes[0]?.html}`)).toEqual([]);
  const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);
  expect(over, page.url()).toBeLessThanOrEqual(0);
}

beforeAll(async () => {
  browser = await launchBrowser();
  database = new pg.Client({ connectionString: inject("app").ownerUrl });
  await database.connect();
  lead = await demoPerson(browser, "lead", PHONE);
  grower = await newGrower(browser, "Ilka");
  owned = await planSet(grower);
  await post(grower, "draws", { id: newId(), outingId: owned.outingId });
  await post(grower, "grades", gradeOf(owned.boxIds[0]!, 45));
  const { rows } = await database.query("SELECT code FROM box WHERE id = $1", [owned.boxIds[0]]);
  boxCode = rows[0].code;
});
afterAll(async () => {
  await database.end();
  await browser.close();
});

describe("a lead at the desk", () => {
  it("finds a home that waits and writes to it; the letter arrives as it was typed", async () => {
    const { page } = lead;
    const { rows } = await database.query(
      "SELECT pseudonym FROM enrolment JOIN outing ON outing.enrolment_id = enrolment.id WHERE outing.id = $1",
      [owned.outingId],
    );
    await page.goto(desk);
    await page.getByRole("link", { name: "Households and their sets" }).click();
    await page.getByRole("heading", { name: rows[0].pseudonym }).waitFor();
    await page.getByRole("link", { name: `Write to ${rows[0].pseudonym}` }).click();
    await page.getByLabel("Subject").fill("Frost <b>soon</b> 🌾");
    await page.getByRole("textbox", { name: "Letter" }).fill("   ");
    await page.getByRole("button", { name: "Look at it first" }).click();
    const summary = page.getByRole("link", { name: "Letter", exact: true });
    await summary.waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain("Mend the ones marked");
    expect(await page.getByLabel("Subject").inputValue()).toBe("Frost <b>soon</b> 🌾");
    await isAccessible(lead);
    await page.getByRole("textbox", { name: "Letter" }).fill("Fetch before Thursday.");
    // Signed out meanwhile: what was typed stays, and goes once somebody is signed in again.
    const cookies = await lead.context.cookies();
    await lead.context.clearCookies();
    await page.getByRole("button", { name: "Look at it first" }).click();
    await page.getByRole("link", { name: "Sign in in another tab" }).waitFor();
    expect(await page.getByRole("textbox", { name: "Letter" }).inputValue()).toBe("Fetch before Thursday.");
    await lead.context.addCookies(cookies);
    await page.getByRole("button", { name: "Look at it first" }).click();
    await page.getByText("It goes to 1 person in 1 household; 1 of them get it by mail, too.").waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe("This is what they get");
    await page.getByRole("button", { name: "Send it" }).click();
    await page.getByText("The letter is on its way.").waitFor();
    await grower.page.goto("/my-things");
    await grower.page.getByText("Frost <b>soon</b> 🌾").waitFor();
    await grower.page.getByText("Fetch before Thursday.").waitFor();
  });

  it("asks for a correction, which the grower answers", async () => {
    const { page } = lead;
    await page.goto(`${desk}/corrections`);
    await page.getByLabel("Code on its label").fill("zzz-99");
    await page.getByRole("button", { name: "Look at it" }).click();
    await page.getByText("No drawn box of this trial has this code.").waitFor();
    expect(await page.getByLabel("Code on its label").inputValue()).toBe("ZZZ-99");
    await page.getByLabel("Code on its label").fill(boxCode.toLowerCase());
    await page.getByRole("button", { name: "Look at it" }).click();
    await page.getByRole("heading", { name: `Box ${boxCode}` }).waitFor();
    await page.getByText("Something else").click();
    await page.getByRole("button", { name: "Ask", exact: true }).click();
    await page.getByText("Say in your own words what they should look at.").first().waitFor();
    await page.getByLabel("In your own words").fill("Was this box really opened?");
    await page.getByRole("button", { name: "Ask", exact: true }).click();
    await page.getByText("They are asked.").waitFor();
    await grower.page.goto("/my-things");
    await grower.page.getByText("Was this box really opened?").waitFor();
    await grower.page.getByRole("button", { name: "It stands as recorded" }).click();
    await grower.page.getByText("Was this box really opened?").waitFor({ state: "detached" });
    await page.goto(`${desk}/corrections`);
    await page.getByText("The grower says it stands as recorded").waitFor();
  });

  it("hides own words with a reason, and shows them again", async () => {
    const { page } = lead;
    await page.goto(`${desk}/told`);
    await page.getByText(PRIVATE_NOTE).first().waitFor();
    await page
      .getByRole("link", { name: `Box ${boxCode}` })
      .first()
      .click();
    await page.getByText("Hide these words").click();
    await page.getByLabel("Why", { exact: true }).fill("Names a relative");
    await page.getByRole("button", { name: "Hide it" }).click();
    await page.getByText("Why: Names a relative").waitFor();
    await grower.page.goto("/my-things");
    await grower.page.getByText("Your own words were hidden").waitFor();
    await page.getByRole("button", { name: "Show it again" }).click();
    await page.getByText("Why: Names a relative").waitFor({ state: "detached" });
  });

  it("pauses the trial for a fire: nothing is drawn until it goes on", async () => {
    const { page } = lead;
    const set = setOf(owned.siteId, [newId(), newId()]);
    await post(grower, "outings", set);
    const draw = () => post(grower, "draws", { id: newId(), outingId: set.id });
    await page.goto(`${desk}/pause`);
    await page.getByText(/^fire, or danger of it$/i).click();
    await page.getByRole("button", { name: "Pause it" }).click();
    await page.getByText(/^Paused since/).waitFor();
    await isAccessible(lead);
    const refused = await draw();
    expect([refused.status(), (await refused.json()).reason]).toEqual([409, "TRIAL_PAUSED"]);
    for (const path of [`/trials/${DEMO_OPEN_TRIAL.slug}`, "/my-things", `/outings/${set.id}`]) {
      await grower.page.goto(path);
      await grower.page
        .getByText(/Paused since/)
        .first()
        .waitFor();
    }
    await page.getByRole("button", { name: "Go on" }).click();
    await page.getByText(/^Paused since/).waitFor({ state: "detached" });
    expect((await draw()).status()).toBe(201);
  });

  it("has a link under each letter that needs no account and changes nothing by being opened", async () => {
    const { page } = await stranger(browser);
    await page.goto("/unsubscribe/nobody.nothing");
    await page.getByRole("heading", { name: "No more letters by mail" }).waitFor();
    await page.getByRole("button", { name: "Stop the mails" }).click();
    await page.getByText(/^This link isn’t complete/).waitFor();
  });
});
