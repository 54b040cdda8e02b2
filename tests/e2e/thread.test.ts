import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { launchBrowser } from "../harness/browser";
import { writeRecipe } from "./growing";
import { demoPerson, newGrower, PHONE, stranger, type Visitor } from "./visitor";

/** The whole main job through the screens: a lead, two growers and a stranger, on the real server and database. */
let browser: Browser;
let lead: Visitor;
let growers: Visitor[];
let reader: Visitor;
let trialPath = "";
let joinPath = "";

const tomorrow = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10);
const today = new Date().toISOString().slice(0, 10);

beforeAll(async () => {
  browser = await launchBrowser();
  lead = await demoPerson(browser, "lead");
  growers = [await newGrower(browser, "Xiana"), await newGrower(browser, "Breogan")];
  reader = await stranger(browser, PHONE);
});
afterAll(() => browser.close());

describe("a trial from the question to the answer", () => {
  it("is made by a lead from two recipes and opened with a published seal", async () => {
    const { page } = lead;
    await writeRecipe(page, "Firm barley of the thread", "0.93");
    await writeRecipe(page, "Soft barley of the thread", "1.43");
    await page.goto("/lead/trials/new");
    await page.getByLabel("Title").fill("Thread trial (invented)");
    await page.getByLabel("Question").fill("Firm or soft barley, invented for a test?");
    await page.getByLabel("Fewest boxes in a set").fill("2");
    await page.getByLabel("Most boxes in a set").fill("4");
    await page.getByLabel("Last day").fill(tomorrow);
    await page.getByLabel("Seats in North shore (invented)").fill("2");
    await page.getByRole("button", { name: "Make the draft" }).click();
    await page.getByRole("heading", { name: "Thread trial (invented)" }).waitFor();
    for (const name of ["Firm barley of the thread", "Soft barley of the thread"]) {
      await page.getByLabel(name).check();
    }
    await page.getByRole("button", { name: "Add those ticked" }).click();
    await page.getByText("What you ticked is in.").waitFor();
    expect((await reader.page.goto("/trials"))!.ok()).toBe(true);
    expect(await reader.page.content()).not.toContain("Thread trial");
    await page.getByLabel("I have read the plan; from here on it stands.").check();
    await page.getByRole("button", { name: "Open it" }).click();
    const link = page.getByRole("link", { name: /\/join\// });
    await link.waitFor();
    joinPath = (await link.getAttribute("href"))!;
    trialPath = (await page.getByRole("link", { name: "The trial's public page" }).getAttribute("href"))!;
    await reader.page.goto(trialPath);
    expect(await reader.page.content()).toMatch(/Seal[\s\S]*[0-9a-f]{64}/);
  });

  it("is joined from its link, with the cautions agreed to first", async () => {
    for (const { page } of growers) {
      await page.goto(joinPath);
      await page.getByText("North shore (invented)").click();
      await page.getByRole("button", { name: "Join this trial" }).click();
      await page.getByRole("link", { name: "Read the page and tick this box first." }).waitFor();
      await page.getByLabel(/^I have read this/).check();
      await page.getByRole("button", { name: "Join this trial" }).click();
      await page.getByText("You take part in this trial.").waitFor();
    }
  });

  it("gives no third household a seat in a region of two", async () => {
    const third = await newGrower(browser, "Noela");
    await third.page.goto(joinPath);
    expect(await third.page.getByText("no seat left").count()).toBeGreaterThan(0);
  });

  it("finds a place's climate group, plans a set, and only then lets chance pick", async () => {
    for (const { page } of growers) {
      await page.goto("/sites/new");
      await page.getByLabel("What you call it").fill("Alders below");
      await page.getByLabel("Latitude").fill("43.3");
      await page.getByLabel("Longitude").fill("-4.6");
      await page.getByLabel("Height above the sea").fill("90");
      await page.getByRole("button", { name: "Save and look up the climate" }).click();
      await page.getByText("Nearest weather station").first().waitFor();
      await page.goto("/outings/new");
      await page.getByLabel("Day you want to set them out").fill(today);
      await page.getByLabel("How many boxes").selectOption("4");
      await page.getByLabel("pearl barley").check();
      await page.getByLabel("Made of").selectOption("softwood");
      await page.getByLabel("Inner length").fill("30");
      await page.getByLabel("Inner width").fill("20");
      await page.getByLabel("How deep the grain will lie").fill("6");
      await page.getByLabel("Cover", { exact: true }).selectOption("paper");
      await page.getByLabel("Against animals and rain").selectOption("wire-cage");
      await page.getByLabel("I asked, and the owner agreed").check();
      await page.getByRole("button", { name: "See what I would need" }).click();
      await page.getByRole("heading", { name: "What you would need at most" }).waitFor();
      expect(await page.getByText(/Pearl barley (0.93|1.43)/).count()).toBe(0);
      await page.getByRole("button", { name: "Pick the recipes now" }).click();
      await page.getByRole("heading", { name: "Cook what chance picked" }).waitFor();
      expect(await page.getByText(/Pearl barley 0.93/).count()).toBeGreaterThanOrEqual(2);
      expect(await page.getByText(/Pearl barley 1.43/).count()).toBeGreaterThanOrEqual(2);
    }
  });

  it("records growth one question at a time; answers survive a reload and a dead network", async () => {
    const { page, context } = growers[0]!;
    const setPath = new URL(page.url()).pathname;
    await page.goto(`${setPath}/boxes/1/grade`);
    for (const next of ["Next: warmth, still closed", "Next: open it", "Next: growth"]) {
      await page.getByRole("button", { name: next }).click();
    }
    expect(await page.getByText(/barley/i).count()).toBe(0);
    await page.getByLabel(/^Your estimate/).fill("45");
    await page.getByRole("button", { name: "Next: other colours" }).click();
    await page.reload();
    await page.getByRole("button", { name: "Back" }).click();
    expect(await page.getByLabel(/^Your estimate/).inputValue()).toBe("45");
    await page.getByRole("button", { name: "Next: other colours" }).click();
    await page.getByText("No other colour").click();
    await page.getByRole("button", { name: "Leave the rest open and look it over" }).click();
    await context.setOffline(true);
    await page.getByRole("button", { name: "Save the record" }).click();
    await page.getByText("Nothing came back.").waitFor();
    await context.setOffline(false);
    await page.getByRole("button", { name: "Save the record" }).click();
    await page.getByText("Sent.", { exact: true }).waitFor();
    const given = page.getByRole("main").locator("dl").first();
    await given.getByText(/30–60 %.*by your number/).waitFor();
    await given.getByText(/Yes: at least 30 % growth and at most 10 % other colours/).waitFor();
  });

  it("shows the lead how far it has come and nothing by recipe, and everyone else that results are hidden", async () => {
    await lead.page.goto("/lead");
    await lead.page.getByRole("link", { name: "Thread trial (invented)" }).click();
    await lead.page.getByText("Results by recipe are still hidden, from you too.").waitFor();
    const progress = lead.page
      .locator("section")
      .filter({ has: lead.page.getByRole("heading", { name: "How far it has come" }) });
    await progress.getByText("Boxes by growth, all recipes together").first().waitFor();
    expect(await progress.textContent()).not.toMatch(/barley/i);
    await reader.page.goto(`${trialPath}/results`);
    await reader.page
      .getByText(/results still hidden/i)
      .first()
      .waitFor();
  });

  it("is closed by its lead; then the secret is out and so is what two households can say: not enough yet", async () => {
    const { page } = lead;
    await page.getByLabel("I want to close it now.").check();
    await page.getByRole("button", { name: "Close it" }).click();
    await page
      .getByText(/^Closed on/)
      .first()
      .waitFor();
    await reader.page.goto(trialPath);
    expect(await reader.page.content()).toContain("The secret");
    await expect
      .poll(
        async () => {
          await reader.page.goto(`${trialPath}/results`);
          return reader.page.getByText("Worked out", { exact: true }).count();
        },
        { timeout: 45_000, interval: 1_000 },
      )
      .toBeGreaterThan(0);
    const results = await reader.page.locator("main").textContent();
    expect(results).toMatch(/fewer than 3|not enough|too few|held back|withheld/i);
    expect(results).not.toMatch(/\b3\.00\b/);
  });
});
