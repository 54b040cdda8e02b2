import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { launchBrowser } from "../harness/browser";
import { type Belongings, planSet } from "./growing";
import { newGrower, type Visitor } from "./visitor";

/** A set of boxes on a phone, from the draw to opening, with a box too few, a dead network and a lost label. */
let browser: Browser;
let grower: Visitor;
let owned: Belongings;
let page: Page;

beforeAll(async () => {
  browser = await launchBrowser();
  grower = await newGrower(browser, "Icia");
  owned = await planSet(grower, "Hazels above the mill");
  page = grower.page;
  await grower.context.grantPermissions(["geolocation"]);
  await grower.context.setGeolocation({ latitude: 43.36214, longitude: -3.84532, accuracy: 7 });
});
afterAll(() => browser.close());

const press = (name: string | RegExp) => page.getByRole("button", { name }).click();
const open = (title: string) => page.locator("summary", { hasText: title }).first().click();

describe("a set of boxes on a phone", () => {
  it("is planned anew before its draw, with decimal commas, and refused where the answer stands", async () => {
    await page.goto(`/outings/${owned.outingId}/edit`);
    await page.getByLabel("How many boxes").selectOption("4");
    await page.getByLabel("Inner height").fill("4");
    await press("Save the change");
    await page.getByText("The box is lower than the grain is deep. Measure again.").first().waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toContain("Measure again.");
    await page.getByLabel("Inner height").fill("9,5");
    await press("Save the change");
    await page.getByRole("heading", { name: "What you would need at most" }).waitFor();
    await page.getByText("Do it at home: the woods may have no signal.").waitFor();
    await press("Pick the recipes now");
    await page.getByRole("heading", { name: "Cook what chance picked" }).waitFor();
  });

  it("says how one box was cooked otherwise and leaves the last out when one is missing", async () => {
    await press("Something was different");
    await page.getByRole("button", { name: "All 4 are cooked as picked" }).waitFor(); // what it would save
    await page.getByRole("group", { name: /-1$/ }).getByText("otherwise", { exact: true }).click();
    await press("Save");
    await page.getByText("Choose what was different.").first().waitFor();
    await page.getByLabel("burnt").check();
    await press("Save");
    await page.getByRole("heading", { name: "Set the boxes out" }).waitFor();
    // The form that held focus has gone with its step.
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.textContent))
      .toBe("Set the boxes out");
    await open("One box too few");
    await press(/^Leave .*-4 out$/);
    await page.getByText(/^Left out because a box was missing: .*-4\.$/).waitFor();
  });

  it("is set out without signal, with the spot taken there, and kept on the phone until it is sent", async () => {
    await press("I have set out 3 boxes");
    await press("Yes, take the spot");
    await page.getByText("The spot is taken, to about 7 m.").waitFor();
    await page.getByLabel("How far apart").fill("80");
    await page.getByLabel("How deep they are sunk").fill("2,5");
    await grower.context.setOffline(true);
    await press("They are out");
    await page.getByText("Nothing came back.").waitFor();
    await page.getByText("On this phone, not sent yet.").first().waitFor();
    await grower.context.setOffline(false);
    await page.reload();
    expect(await page.getByLabel("How far apart").inputValue()).toBe("80");
    await press("They are out");
    await page.getByRole("button", { name: "I have fetched all 3" }).waitFor();
    await open("Where and how they stand");
    await page.getByText("43.36214, -3.84532").waitFor();
  });

  it("has a field sheet that leads back to it and days for a calendar", async () => {
    await page.goto(`/outings/${owned.outingId}/sheet`);
    await page.getByRole("img", { name: /leads to the set’s page/ }).waitFor();
    expect(await page.getByText(/Pearl barley|Brown rice/).count()).toBe(0);
    const calendar = await grower.context.request.get(`/outings/${owned.outingId}/calendar`);
    expect(calendar.headers()["content-type"]).toContain("text/calendar");
    const text = await calendar.text();
    expect(text).toMatch(/BEGIN:VCALENDAR[\s\S]*SUMMARY:Fetch boxes [\s\S]*END:VCALENDAR/);
    expect(text).not.toContain("Hazels");
  });

  it("whose label is gone and can't be told by its place stays unidentified; the others are fetched and opened", async () => {
    await page.goto(`/outings/${owned.outingId}`);
    await page.locator('a[href="#box-2"]').click();
    const box = page.locator("details", { has: page.locator("#box-2") });
    await box.locator("summary", { hasText: "Something happened to it" }).click();
    await box.getByLabel("The label was gone").check();
    const save = box.getByRole("button", { name: "Save", exact: true }).first();
    await save.click();
    await page.getByText("Say whether you can tell which box it is.").waitFor();
    await box.getByText("I’m not sure").click();
    await save.click();
    await box.getByText("nobody can tell which box it is").waitFor();

    await page.getByText("Nothing", { exact: true }).click();
    await press("I have fetched all 2");
    await page.getByRole("link", { name: /^Open and record .*-1$/ }).waitFor();
    expect(await page.getByRole("link", { name: /ecord.*-2$/ }).count()).toBe(0);
    await open("Opened, but recorded later");
    await press("I have opened these 2");
    await page.getByText("Opened, but recorded later").waitFor({ state: "detached" });
    await page.getByRole("link", { name: /^Open and record .*-1$/ }).click();
    await page.waitForURL(/boxes\/1\/grade$/);
  });
});
