import { createHash } from "node:crypto";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import type { ReleaseManifest } from "@/shared/schemas/release";
import { runIn, scratchFolder } from "../cli/capture";
import { launchBrowser } from "../harness/browser";
import { gradeOf, joins, placeOf, saves, setOf, writeRecipe } from "./growing";
import { demoPerson, newGrower, newId, PHONE, post, signUp, stranger, type Visitor } from "./visitor";

/**
 * A whole season on phones: a lead makes a trial from nothing and releases it, five people of four households grow with
 * mishaps, and a reader without an account finds again in public what each of them noted. One story, so one file:
 * each step rests on those before it. What takes many taps and is walked elsewhere goes as a phone sends it.
 */
const TITLE = `A season of barley ${newId().slice(-6)} (invented)`;
const DAY_MS = 86_400_000;
const REGION = "North shore (invented)";

let browser: Browser;
const people = {} as Record<
  "lead" | "aldara" | "brais" | "carme" | "duarte" | "estevo" | "leaver" | "reader",
  Visitor
>;
let trialId = "";
let joinPath = "";
const folder = scratchFolder();

/** What growers noted for themselves: of each drawn set its fingerprint and, by position, growth from 0 to 4. */
const notebook: { readonly shortHash: string; readonly growth: (number | null)[] }[] = [];

/** A cover in per cent for each growth, by the boundaries of ASTM G21: 10, 30 and 60 %. */
const COVER_OF_GROWTH = [0, 5, 20, 45, 80];

beforeAll(async () => {
  browser = await launchBrowser();
  people.lead = await demoPerson(browser, "lead", PHONE);
  for (const name of ["carme", "duarte", "estevo", "leaver"] as const) {
    people[name] = await newGrower(browser, name);
  }
  for (const name of ["aldara", "brais", "reader"] as const) people[name] = await stranger(browser);
});
afterAll(async () => {
  folder.remove();
  await browser.close();
});

const press = (page: Page, name: string | RegExp) =>
  page.getByRole("button", { name, exact: typeof name === "string" }).click();
const follow = (page: Page, name: string | RegExp) =>
  page
    .getByRole("link", { name, exact: typeof name === "string" })
    .first()
    .click();
const openFold = (page: Page, title: string) => page.locator("summary", { hasText: title }).first().click();
const desk = () => `/lead/trials/${trialId}`;

/** Plans a set of this trial with two boxes of each recipe and lets chance pick, as a phone sends it. */
async function drawsSet(visitor: Visitor) {
  const siteId = await placeOf(visitor, "Under the oaks");
  const boxIds = [newId(), newId(), newId(), newId()];
  const set = { ...setOf(siteId, boxIds), trialId, grainsAtHand: ["barley-pearl"] };
  await saves(visitor, "outings", set);
  const { shortHash } = await saves(visitor, "draws", { id: newId(), outingId: set.id });
  const noted = { shortHash, growth: [null, null, null, null] as (number | null)[] };
  notebook.push(noted);
  return { id: set.id, boxIds, noted };
}
type DrawnSet = Awaited<ReturnType<typeof drawsSet>>;

async function setsOut(visitor: Visitor, { id: outingId, boxIds }: DrawnSet) {
  for (const kind of ["set-out", "fetched"]) {
    const told = boxIds.map((boxId) => ({ id: newId(), boxId, kind, detail: null }));
    const occurredAt = new Date().toISOString();
    const report = { id: newId(), outingId, occurredAt, told, standing: null, pin: null, note: null };
    await saves(visitor, "set-reports", report);
  }
}

/** Records growth of a box, from 0 to 4, and notes it. */
async function records(visitor: Visitor, { boxIds, noted }: DrawnSet, position: number, growth: number) {
  await saves(visitor, "grades", gradeOf(boxIds[position - 1]!, COVER_OF_GROWTH[growth]!));
  noted.growth[position - 1] = growth;
}

async function typesCover(page: Page, percent: string) {
  for (const next of ["Next: warmth, still closed", "Next: open it", "Next: growth"]) await press(page, next);
  await page.getByLabel(/^Your estimate/).fill(percent);
  await press(page, "Leave the rest open and look it over");
}

describe("the lead", () => {
  it("makes a trial from own recipes, says how it is decided, and opens it", async () => {
    const { page } = people.lead;
    await writeRecipe(page, `Firm, ${TITLE}`, "0.93");
    await writeRecipe(page, `Soft, ${TITLE}`, "1.43");
    await page.goto("/lead");
    await follow(page, "Make a trial");
    await page.getByLabel("Title").fill(TITLE);
    await page.getByLabel("Question").fill("Does firm or soft barley take better? Invented for a test.");
    await page.getByLabel("Fewest boxes in a set").fill("2");
    await page.getByLabel("Most boxes in a set").fill("4");
    await page.getByLabel("Last day").fill(new Date(Date.now() + 60 * DAY_MS).toISOString().slice(0, 10));
    await page.getByLabel("Groups", { exact: true }).fill("mild-wet: Cfa, Cfb\ndry: BSh, BSk");
    await page.getByLabel(`Seats in ${REGION}`).fill("4");
    await press(page, "Make the draft");
    await page.getByText("No recipe yet.").waitFor();
    for (const name of ["Firm", "Soft"]) await page.getByLabel(`${name}, ${TITLE}`).check();
    await press(page, "Add those ticked");
    await page.getByText("What you ticked is in.").waitFor();
    await follow(page, /^How it is decided/);
    await page.getByText("Whenever you decide").click();
    await press(page, "Save");
    await page.getByRole("heading", { name: "The plan as it would stand" }).waitFor();
    await page.getByLabel("I have read the plan; from here on it stands.").check();
    await press(page, "Open it");
    await page.getByRole("heading", { name: "Invite growers" }).waitFor();
    trialId = new URL(page.url()).pathname.split("/").at(-1)!;
    joinPath = (await page.getByRole("link", { name: /\/join\// }).getAttribute("href"))!;
  });
});

/** Carme's, a label of which is gone. */
let unsure: DrawnSet;

describe("five growers", () => {
  it("come by the link without an account; the other adult of a home takes no seat", async () => {
    const { page } = people.aldara;
    await page.goto("/join");
    await page.getByLabel("Code").fill("no such code");
    await press(page, "Look it up");
    await page.getByText("No trial has this code.").waitFor();
    expect(await page.getByLabel("Code").inputValue()).toBe("no such code");
    await page.getByLabel("Code").fill(joinPath.split("/").at(-1)!.toLowerCase());
    await press(page, "Look it up");
    await follow(page, "Sign in or make an account");
    await follow(page, "I have no account yet");
    await page.getByLabel("Your name").waitFor();
    await signUp(page, "Aldara");
    await page.getByLabel(/^I have read this/).check();
    await press(page, "Join this trial");
    await page.getByText("You take part in this trial.").waitFor();
    await page.goto("/account");
    const code = page.locator("dt", { hasText: "Household code" }).locator("xpath=following-sibling::dd");
    const householdCode = (await code.textContent())!;
    await people.brais.page.goto(`/sign-up?next=${joinPath}`);
    await signUp(people.brais.page, "Brais", householdCode);
    await people.brais.page.getByText("Your household has its seat in this trial.").waitFor();
    for (const name of ["brais", "carme", "duarte", "leaver"] as const)
      await joins(people[name], joinPath.split("/").at(-1)!);
  });

  it("wait in line once seats are gone, and get the one that another leaves", async () => {
    const { page } = people.estevo;
    await page.goto(joinPath);
    await page.getByText("This region has no seat left.").waitFor();
    await page.getByLabel(/^I have read this/).check();
    await press(page, "Wait for a seat");
    await page.getByText("Your household is first in line").waitFor();
    const { page: leaving } = people.leaver;
    await leaving.goto(joinPath);
    await openFold(leaving, "Leave this trial");
    await leaving.getByLabel("My household leaves this trial").check();
    await press(leaving, "Leave");
    await leaving.getByText("Your household left this trial.").waitFor();
    await leaving.getByText("This region has no seat left.").waitFor();
    await page.reload();
    await page.getByText("You take part in this trial.").waitFor();
  });

  it("find a place’s climate, plan, let chance pick, and cook: one box burnt, one too few, one taken by an animal", async () => {
    const { page } = people.aldara;
    await page.goto(joinPath);
    await follow(page, "Add a place first");
    await page.getByLabel("What you call it").fill("Alders below");
    await page.getByLabel("Latitude").fill("43,3");
    await page.getByLabel("Longitude").fill("-4,6");
    await page.getByLabel("Height above the sea").fill("90");
    await press(page, "Save and look up the climate");
    await page.getByText("Nearest weather station").first().waitFor();
    await follow(page, "Plan a set of boxes");
    await page.getByLabel("Day you want to set them out").fill(new Date().toISOString().slice(0, 10));
    await page.getByLabel("How many boxes").selectOption("4");
    await page.getByLabel("pearl barley").check();
    await page.getByLabel("Made of").selectOption("softwood");
    await page.getByLabel("Inner length").fill("30");
    await page.getByLabel("Inner width").fill("20");
    await page.getByLabel("How deep the grain will lie").fill("6");
    await page.getByLabel("Cover", { exact: true }).selectOption("paper");
    await page.getByLabel("Against animals and rain").selectOption("wire-cage");
    await page.getByLabel("I asked, and the owner agreed").check();
    await press(page, "See what I would need");
    await press(page, "Pick the recipes now");
    await page.getByRole("heading", { name: "Cook what chance picked" }).waitFor();
    const receipt = page.locator("dt", { hasText: "Short fingerprint" });
    const shortHash = await receipt.locator("xpath=following-sibling::dd").textContent();
    notebook.push({ shortHash: shortHash!, growth: [3, null, 4, null] });

    await press(page, "Something was different");
    await page.getByRole("group", { name: /-1$/ }).getByText("otherwise", { exact: true }).click();
    await page.getByLabel("burnt").check();
    await press(page, "Save");
    await page.getByRole("heading", { name: "Set the boxes out" }).waitFor();
    await openFold(page, "One box too few");
    await press(page, /^Leave .*-4 out$/);
    await press(page, "I have set out 3 boxes");
    await press(page, "They are out");
    await page.getByRole("button", { name: "I have fetched all 3" }).waitFor();
    await page.locator('a[href="#box-2"]').click();
    const box = page.locator("details", { has: page.locator("#box-2") });
    await box.locator("summary", { hasText: "Something happened to it" }).click();
    await box.getByLabel("An animal was at it").check();
    await box.getByText("No", { exact: true }).click();
    expect(await box.getByLabel("Why not?").inputValue()).toBe("");
    await box.getByRole("button", { name: "Save", exact: true }).first().click();
    await page.getByRole("button", { name: "I have fetched all 2" }).click();
    await page.getByRole("link", { name: /^Open and record .*-1$/ }).waitFor();
  });

  it("record without signal: what was typed stays on the phone and is sent once", async () => {
    const { page, context } = people.aldara;
    await follow(page, /^Open and record .*-1$/);
    await typesCover(page, "45,5");
    await context.setOffline(true);
    await press(page, "Save the record");
    await page.getByText("Nothing came back.").waitFor();
    await context.setOffline(false);
    await page.reload();
    await page.getByText("On this phone, not sent yet.").waitFor();
    await press(page, "Save the record");
    await page.getByText("Sent.", { exact: true }).waitFor();
    await page.goto(page.url().replace("/1/grade", "/3/grade"));
    await typesCover(page, "80");
    await press(page, "Save the record");
    await page.getByText("Sent.", { exact: true }).waitFor();
  });

  it("give a set up and get its recipes back; lose a label; the others grow as they should", async () => {
    const { brais, carme, duarte, estevo } = people;
    const given = await drawsSet(duarte);
    const { page } = duarte;
    await page.goto(`/outings/${given.id}`);
    await openFold(page, "Give up this set");
    await page.getByLabel("Why").selectOption("weather");
    await press(page, "Give it up");
    await page.getByText("This set was given up.").waitFor();
    const again = await drawsSet(duarte);
    await page.goto(`/outings/${again.id}`);
    await page.getByText(/^The recipes of set .*, which you gave up, came back in this set\.$/).waitFor();

    unsure = await drawsSet(carme);
    const sets = [
      [brais, await drawsSet(brais), [2, 3, 3, 4]],
      [carme, unsure, [1, 3, 2, null]],
      [duarte, again, [4, 2, 3, 1]],
      [estevo, await drawsSet(estevo), [2, 4, 0, 3]],
    ] as const;
    for (const [visitor, set, growth] of sets) {
      await setsOut(visitor, set);
      for (const [i, each] of growth.entries()) if (each !== null) await records(visitor, set, i + 1, each);
    }
    await saves(carme, "box-events", {
      id: newId(),
      boxId: unsure.boxIds[3],
      kind: "label-gone",
      detail: { kind: "label-gone", known: false },
      occurredAt: new Date().toISOString(),
      withdrawsId: null,
      note: null,
    });
  });
});

describe("the season goes on", () => {
  it("with a correction that the lead asks for and the grower makes", async () => {
    const { lead, carme } = people;
    await carme.page.goto("/outings");
    const code = (await carme.page.getByText(/^\w+-1$/).textContent())!;
    await lead.page.goto(`${desk()}/corrections`);
    await lead.page.getByLabel("Code on its label").fill(code);
    await press(lead.page, "Look at it");
    await lead.page.getByText("Per cents and picture disagree").click();
    await press(lead.page, "Ask");
    await lead.page.getByText("They are asked.").waitFor();
    await carme.page.goto("/my-things");
    await follow(carme.page, "Look again");
    await press(carme.page, "Change: White or grey growth");
    await carme.page.getByLabel(/^Your estimate/).fill("20");
    await press(carme.page, "Leave the rest open and look it over");
    await press(carme.page, "Save the correction");
    await carme.page.getByText("Sent.", { exact: true }).waitFor();
    unsure.noted.growth[0] = 2;
    await lead.page.goto(`${desk()}/corrections`);
    await lead.page.getByText("Something new was recorded").waitFor();
  });

  it("through a drought: a letter to everyone, a pause in which nothing is drawn, and on", async () => {
    const { lead, estevo } = people;
    const { page } = lead;
    await page.goto(`${desk()}/pause`);
    await page.getByText(/^drought$/i).click();
    await press(page, "Pause it");
    await page.getByText(/^Paused since/).waitFor();
    await follow(page, "Write to everyone about it");
    await page.getByLabel("Subject").fill("No boxes while it is so dry");
    await page.getByRole("textbox", { name: "Letter" }).fill("Stay out of the woods until you hear from me.");
    await press(page, "Look at it first");
    await page.getByText("It goes to 5 people in 4 households;").waitFor();
    await press(page, "Send it");
    await page.getByText("The letter is on its way.").waitFor();
    await estevo.page.goto("/my-things");
    await estevo.page.getByText("Stay out of the woods until you hear from me.").waitFor();
    const set = {
      ...setOf(await placeOf(estevo, "Above the mill"), [newId(), newId()]),
      trialId,
      grainsAtHand: ["barley-pearl"],
    };
    await saves(estevo, "outings", set);
    const refused = await post(estevo, "draws", { id: newId(), outingId: set.id });
    expect((await refused.json()).reason).toBe("TRIAL_PAUSED");
    await page.goto(`${desk()}/pause`);
    await press(page, "Go on");
    await page.getByText(/^Paused since/).waitFor({ state: "detached" });
  });

  it("until the lead, who has seen nothing by recipe, closes it early and releases it", async () => {
    const { page } = people.lead;
    await page.goto(desk());
    await page.getByText("Results by recipe are still hidden, from you too.").waitFor();
    const progress = page.locator("section", {
      has: page.getByRole("heading", { name: "How far it has come" }),
    });
    expect(await progress.textContent()).not.toMatch(/barley/i);
    await page.getByText(/Readers will be told that it closed early\./).waitFor();
    await page.getByLabel("I want to close it now.").check();
    await press(page, "Close it");
    await page
      .getByText(/^Closed on/)
      .first()
      .waitFor();
    await follow(page, "Final results");
    await page.getByRole("region", { name: "The first rows" }).waitFor();
    await page.getByLabel(/^I have looked at it/).check();
    await press(page, "Release");
    await page.getByText(/^Released /).waitFor();
  });
});

describe("a reader without an account", () => {
  let rows: Record<string, string>[];
  let ledger: LedgerFile;
  let release = "";

  it("finds the trial, its results and that it closed early", async () => {
    const { page } = people.reader;
    await page.goto("/trials");
    await follow(page, TITLE);
    await page.getByRole("heading", { name: TITLE, level: 1 }).waitFor();
    await follow(page, "Final results");
    await page.getByText(/^The trial closed early/).waitFor();
    await follow(page, "Rows, methods and how to cite it");
    await page.getByText(/^Released /).waitFor();
    release = new URL(page.url()).pathname;
  });

  it("takes the files along, whole as their hashes say, and makes the figures again from the rows", async () => {
    const { request } = people.reader.context;
    const file = async (name: string) => (await request.get(`${release}/${name}`)).body();
    const manifest: ReleaseManifest = JSON.parse((await file("release.json")).toString());
    for (const { name, sha256 } of manifest.parts) {
      expect(
        createHash("sha256")
          .update(await file(name))
          .digest("hex"),
        name,
      ).toBe(sha256);
    }
    const text = (await file("rows.csv")).toString();
    const [head, ...lines] = text
      .trim()
      .split("\n")
      .map((line) => line.split(","));
    rows = lines.map((cells) => Object.fromEntries(head!.map((name, i) => [name, cells[i]!])));
    folder.write("rows.csv", text);
    const { stdout } = await runIn(folder.path, ...manifest.command.split(" ").slice(1));
    expect(stdout).toBe((await file("figures.json")).toString());
  });

  it("has every draw made again, in the browser and by the command", async () => {
    const { page } = people.reader;
    await page.goto(release.replace(/release$/, "proof"));
    await press(page, "Check every pick");
    await page.getByText(`All ${notebook.length} picks stand`).waitFor();
    const text = await (await page.request.get(release.replace(/release$/, "ledger"))).text();
    folder.write("ledger.json", text);
    ledger = JSON.parse(text);
    expect((await runIn(folder.path, "verify", "ledger.json")).exitCode).toBe(0);
  });

  it("reads of every box the recipe that was drawn and the growth that its grower noted", () => {
    expect(rows).toHaveLength(4 * notebook.length);
    for (const { shortHash, growth } of notebook) {
      const entry = ledger.entries.find(({ hash }) => `${hash.slice(0, 8)}-${hash.slice(-8)}` === shortHash)!;
      for (const { position, arm } of entry.result) {
        const row = rows.find(({ box }) => box === `${entry.inputs.outingId}.${position}`)!;
        expect(row.arm).toBe(arm);
        expect(row.outcome, `${shortHash} ${position}`).toBe(String(growth[position - 1] ?? ""));
      }
    }
  });
});
