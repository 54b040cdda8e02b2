import pg from "pg";
import type { Browser, BrowserContext, Page } from "playwright-core";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { launchBrowser } from "../harness/browser";
import { firstScripts, sentBytes } from "../harness/script-bytes";
import { type Belongings, planSet } from "./growing";
import { newGrower, newId, origin, PHONE, post, type Visitor } from "./visitor";

/** Recording growth in the woods: signal comes and goes, tabs close, and two phones record the same box. */
let browser: Browser;
let database: pg.Client;
let grower: Visitor;
let owned: Belongings;

beforeAll(async () => {
  browser = await launchBrowser();
  database = new pg.Client({ connectionString: inject("app").ownerUrl });
  await database.connect();
  grower = await newGrower(browser, "Nerea");
  owned = await planSet(grower);
  const drawn = await post(grower, "draws", { id: newId(), outingId: owned.outingId });
  expect(drawn.status(), await drawn.text()).toBe(201);
});
afterAll(async () => {
  await database.end();
  await browser.close();
});

const recordPath = (position: number) => `/outings/${owned.outingId}/boxes/${position}/grade`;

async function takesOf(position: number): Promise<number[]> {
  const { rows } = await database.query("SELECT take FROM grade WHERE box_id = $1 ORDER BY revision", [
    owned.boxIds[position - 1],
  ]);
  return rows.map(({ take }) => take);
}

const press = (page: Page, name: string) => page.getByRole("button", { name, exact: true }).click();

/** Goes to the question of cover and types a number. */
async function typeCover(page: Page, percent: string): Promise<void> {
  for (const next of ["Next: warmth, still closed", "Next: open it", "Next: growth"]) await press(page, next);
  await page.getByLabel(/^Your estimate/).fill(percent);
}

async function lookOver(page: Page): Promise<void> {
  await press(page, "Leave the rest open and look it over");
  await page.getByRole("heading", { name: "What you answered" }).waitFor();
}

/** Another phone of the same person. */
async function secondPhone(): Promise<BrowserContext> {
  const storageState = await grower.context.storageState();
  return browser.newContext({ baseURL: origin, viewport: PHONE, storageState });
}

describe("the page", () => {
  it("loads at most 150 kB of scripts at first, and asks for the rest until there is signal", async () => {
    const html = await (await grower.context.request.get(recordPath(1))).text();
    const scripts = firstScripts(html);
    expect(scripts.length).toBeGreaterThan(4);
    expect(await sentBytes(origin, scripts)).toBeLessThanOrEqual(150_000);

    const page = await grower.context.newPage();
    let hasSignal = false;
    await page.route(/\.js$|\/api\/health$/, (route) => {
      const isFirst = scripts.includes(new URL(route.request().url()).pathname);
      return isFirst || hasSignal ? route.continue() : route.abort();
    });
    await page.goto(recordPath(1));
    for (const next of ["Next: warmth, still closed", "Next: open it"]) await press(page, next);
    await page.getByText(/on their way/).waitFor();
    hasSignal = true;
    await page.getByText("Lift the cover slowly", { exact: false }).waitFor();
    await page.evaluate(() => localStorage.clear()); // nothing answered stays for the tests to come
    await page.close();
  });

  it("loads itself again where later scripts are gone from a server that answers, as after an upgrade", async () => {
    const scripts = firstScripts(await (await grower.context.request.get(recordPath(1))).text());
    const page = await grower.context.newPage();
    await page.route("**/*.js", (route) => {
      const isFirst = scripts.includes(new URL(route.request().url()).pathname);
      return isFirst ? route.continue() : route.fulfill({ status: 404 });
    });
    await page.goto(recordPath(1));
    await page.waitForEvent("load", { timeout: 30_000 });
    await page.unroute("**/*.js");
    for (const next of ["Next: warmth, still closed", "Next: open it"]) await press(page, next);
    await page.getByText("Lift the cover slowly", { exact: false }).waitFor();
    await page.evaluate(() => localStorage.clear());
    await page.close();
  });
});

describe("what is typed", () => {
  it("stays through lost signal and a closed tab, is saved once, and only then tells the recipe", async () => {
    const page = await grower.context.newPage();
    const shown = await page.goto(recordPath(1));
    // The whole answer, what the browser's code gets included; the set's grains are barley and brown rice.
    expect(await shown!.text()).not.toMatch(/barley|rice/i);
    await typeCover(page, "120");
    await press(page, "Next: other colours");
    await page.getByText("Per cents run from 0 to 100.").waitFor();
    await page.getByLabel(/^Your estimate/).fill("45,5");
    await lookOver(page);
    await page.getByText("45.5 %").waitFor();
    await grower.context.setOffline(true);
    await press(page, "Save the record");
    await page.getByText("Nothing came back.").waitFor();
    await page.close();
    await grower.context.setOffline(false);

    const again = await grower.context.newPage();
    await again.goto(recordPath(1));
    await again.getByText("On this phone, not sent yet.").waitFor();
    // The server saves it, and its answer is lost on the way: the same write goes again.
    let lost = 0;
    await again.route("**/api/v1/grades", async (route) => {
      if (lost++ > 0) return route.continue();
      await route.fetch();
      await route.abort();
    });
    await press(again, "Save the record");
    await again.getByText("Sent.", { exact: true }).waitFor();
    const given = again.getByRole("main").locator("dl").first();
    await given.getByText(/30–60 %.*by your number/).waitFor();
    await given.getByText(/barley|rice/i).waitFor();
    expect(lost).toBe(2);
    expect(await takesOf(1)).toEqual([3]);
    await again.close();
  });

  it("of the later of two phones is told of what stands, is kept, and can become a correction", async () => {
    const [early, late] = [await grower.context.newPage(), await (await secondPhone()).newPage()];
    await early.goto(recordPath(2));
    await typeCover(early, "20");
    await late.goto(recordPath(2));
    await typeCover(late, "80");
    await lookOver(late);
    await press(late, "Save the record");
    await late.getByText("Sent.", { exact: true }).waitFor();
    await lookOver(early);
    await press(early, "Save the record");
    await early.getByText(/recorded meanwhile/).waitFor();
    await early.getByText(/Recorded: Nearly all/).waitFor();
    await press(early, "Make mine a correction");
    await press(early, "Save the correction");
    await early.getByText("Sent.", { exact: true }).waitFor();
    expect(await takesOf(2)).toEqual([4, 2]);
    await early.reload();
    await early.getByText("Version 2", { exact: true }).click();
    await early.getByText("20 % (before: 80 %)").waitFor();
    await late.context().close();
    await early.close();
  });
});

/** After the tries a phone makes by itself. */
const SOON = { timeout: 20_000 };

/** Invented, with a position in its EXIF block. */
function cameraPicture(): Promise<Buffer> {
  return sharp({ create: { width: 900, height: 600, channels: 3, background: "#8d6536" } })
    .withExif({ IFD0: { Make: "Invented" }, IFD3: { GPSLatitudeRef: "N", GPSLatitude: "43/1 30/1 0/1" } })
    .jpeg()
    .toBuffer();
}

/** Runs in the page: the bytes of the pictures that wait on this phone. */
async function waitingBytes(): Promise<number[][]> {
  const database = await new Promise<IDBDatabase>((done, failed) => {
    const opening = indexedDB.open("grainlot-pictures");
    opening.onsuccess = () => done(opening.result);
    opening.onerror = () => failed(opening.error);
  });
  const pictures = await new Promise<{ file: Blob }[]>((done) => {
    const reading = database.transaction("waiting").objectStore("waiting").getAll();
    reading.onsuccess = () => done(reading.result);
  });
  database.close();
  return Promise.all(pictures.map(async ({ file }) => [...new Uint8Array(await file.arrayBuffer())]));
}

describe("a picture of a box", () => {
  it("waits on the phone without signal and goes later, without where it was taken", async () => {
    const buffer = await cameraPicture();
    expect(buffer.includes("Exif")).toBe(true);
    const page = await grower.context.newPage();
    await page.goto(recordPath(3));
    for (const next of ["Next: warmth, still closed", "Next: open it"]) await press(page, next);
    await page.route("**/api/v1/photos?**", (route) => route.abort());
    const picture = { name: "box.jpg", mimeType: "image/jpeg", buffer };
    await page.locator('input[type="file"]').setInputFiles(picture);
    const state = page.getByRole("list", { name: "Pictures" }).getByRole("status");
    await expect.poll(() => state.textContent(), SOON).toBe("On this phone, not sent yet.");
    // What waits to be sent has left the position behind already.
    const waiting = await page.evaluate(waitingBytes);
    expect(waiting).toHaveLength(1);
    expect(Buffer.from(waiting[0]!).includes("Exif")).toBe(false);
    await page.unroute("**/api/v1/photos?**");
    await page.reload();
    await expect.poll(() => state.textContent(), SOON).toBe("Sent.");
    const [photo] = (await database.query("SELECT id FROM photo WHERE box_id = $1", [owned.boxIds[2]])).rows;
    const kept = await grower.context.request.get(`/photos/${photo.id}`);
    expect(kept.status()).toBe(200);
    expect((await kept.body()).includes("Exif")).toBe(false);
    await page.close();
  });

  it("loses its position at the server too, where the phone left it in", async () => {
    const id = newId();
    const query = new URLSearchParams({ id, purpose: "opened", of: owned.boxIds[2]! });
    const sent = await grower.context.request.post(`/api/v1/photos?${query}`, {
      headers: { origin, "content-type": "image/jpeg" },
      data: await cameraPicture(),
    });
    expect(sent.status(), await sent.text()).toBe(201);
    const kept = await (await grower.context.request.get(`/photos/${id}`)).body();
    expect(kept.includes("Exif")).toBe(false);
    expect((await sharp(kept).metadata()).exif).toBeUndefined();
  });
});
