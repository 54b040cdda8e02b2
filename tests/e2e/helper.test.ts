import { AxeBuilder } from "@axe-core/playwright";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { launchBrowser } from "../harness/browser";
import { type Belongings, gradeOf, PRIVATE_SITE_NAME, planSet, sendPicture, whitePicture } from "./growing";
import { newGrower, newId, origin, post, stranger, type Visitor } from "./visitor";

/** Somebody without an account helps with one set of boxes, through a link that its grower makes and takes back. */
let browser: Browser;
let owner: Visitor;
let helper: Visitor;
let nobody: Visitor;
let owned: Belongings;
let link = "";

beforeAll(async () => {
  browser = await launchBrowser();
  owner = await newGrower(browser, "Sabela");
  helper = await stranger(browser);
  nobody = await stranger(browser);
  owned = await planSet(owner);
  await saves("draws", { outingId: owned.outingId });
  const occurredAt = new Date(Date.now() - 3_600_000).toISOString();
  for (const boxId of owned.boxIds) {
    await saves("box-events", { boxId, kind: "set-out", occurredAt, withdrawsId: null, note: null });
  }
});
afterAll(() => browser.close());

async function saves(noun: string, body: object): Promise<void> {
  const answer = await post(owner, noun, { id: newId(), ...body });
  expect(answer.status(), await answer.text()).toBe(201);
}

const codeOf = async (visitor: Visitor, path: string) =>
  (await visitor.context.request.get(path, { maxRedirects: 0 })).status();

describe("a helper link", () => {
  it("is made on the set's page, shown once, and opens that set without an account", async () => {
    const { page } = owner;
    await page.goto(`/outings/${owned.outingId}`);
    await page.getByText("Somebody helps you", { exact: true }).click();
    await page.getByRole("button", { name: "Make a link" }).click();
    link = await page.getByLabel("Link", { exact: true }).inputValue();
    expect(link).toMatch(new RegExp(`^${origin}/h/[\\w-]{43}$`));
    await page.getByAltText("The same link as a QR code").waitFor();
    await page.reload();
    expect(await page.content()).not.toContain(link.split("/").at(-1)!);

    await helper.page.goto(link);
    expect(new URL(helper.page.url()).pathname).toBe("/h");
    await helper.page.getByRole("heading", { name: /You help with set/ }).waitFor();
    const seen = await helper.page.content();
    for (const hidden of [PRIVATE_SITE_NAME, owned.siteId, owner.email!, "arley", "rice"]) {
      expect(seen).not.toContain(hidden);
    }
    const { violations } = await new AxeBuilder({ page: helper.page }).analyze();
    expect(violations.map(({ id, nodes }) => `${id} ${nodes[0]?.html}`)).toEqual([]);
  });

  it("says until when there is nothing to do, and lets its holder fetch and record, in the grower's name", async () => {
    const { page } = helper;
    await page.getByRole("heading", { name: /^Nothing to do until/ }).waitFor();
    await page.getByText("They are back already").click();
    await page.getByRole("button", { name: /fetched/i }).click();
    await page.getByRole("link", { name: /^Open and record / }).click();
    await page.waitForURL(/\/h\/boxes\/1\/grade$/);
    await page.getByRole("heading", { level: 1 }).waitFor();
    expect(await page.content()).not.toMatch(/arley|rice/);
    const answer = await post(helper, "grades", {
      ...gradeOf(owned.boxIds[0]!, 45),
      note: "Seen by a helper",
    });
    expect(answer.status(), await answer.text()).toBe(201);
    await owner.page.goto(`/outings/${owned.outingId}`);
    await owner.page.getByText("Much", { exact: false }).first().waitFor();
  });

  it("lets its holder correct that record, add and remove a picture, and take back what they told", async () => {
    const { page } = helper;
    page.on("dialog", (dialog) => dialog.accept());
    await page.goto("/h");
    await page.getByRole("link", { name: "Correct the record" }).click();
    await page.getByText("There is a record of this box (version 1).").waitFor();
    await page.getByRole("button", { name: "Save the correction" }).click();
    await page.getByText("Version 2", { exact: true }).waitFor();
    expect(await page.content()).not.toMatch(/arley|rice/);

    await page.goto("/h/boxes/2/grade");
    await page.getByRole("button", { name: "Next: warmth, still closed" }).click();
    await page.getByRole("button", { name: "Next: open it" }).click();
    const picture = { name: "box.png", mimeType: "image/png", buffer: await whitePicture() };
    await page.locator("input[type=file]").setInputFiles(picture);
    await page.getByText("Sent.", { exact: true }).waitFor();
    await page.reload();
    await page.getByAltText("Picture 1").waitFor();
    await page.getByRole("button", { name: "Remove picture 1" }).click();
    await page.getByText("Take or choose a picture").waitFor();

    await page.goto("/h");
    const takeBack = page.getByRole("button", { name: "Take back: Fetched" });
    const told = await takeBack.count();
    await takeBack.first().click();
    await expect.poll(() => takeBack.count(), { timeout: 15_000 }).toBe(told - 1);
  });

  it("opens nothing else: everything is as without an account, and the grower's pictures stay theirs", async () => {
    const set = `/outings/${owned.outingId}`;
    const paths = [set, `${set}/boxes/1/grade`, `${set}/sheet`, `${set}/calendar`, `${set}/edit`];
    paths.push(`/sites/${owned.siteId}`, `/variants/${owned.variantId}`, "/my-things", "/outings", "/sites");
    paths.push("/variants", "/jars", "/account", "/account/data", "/lead", "/admin", "/");
    for (const path of paths) expect(await codeOf(helper, path), path).toBe(await codeOf(nobody, path));
    const { outingId } = owned;
    const at = new Date().toISOString();
    const writes: Record<string, object> = {
      abandonments: { outingId, reason: "no-time", note: null },
      draws: { outingId },
      pins: { outingId, pin: null },
      "site-changes": { siteId: owned.siteId, name: "Elsewhere" },
      "missing-boxes": { outingId },
      jars: { boxes: [], sugarG: 1, madeAt: at },
      sites: { name: "x", latitude: 43.4, longitude: -3.8, elevationM: 60 },
    };
    for (const [noun, body] of Object.entries(writes)) {
      expect((await post(helper, noun, { id: newId(), ...body })).status(), noun).toBe(401);
    }
    const [photoId, boxId] = [newId(), owned.boxIds[0]!];
    expect((await sendPicture(owner, { id: photoId, purpose: "opened", of: boxId })).status()).toBe(201);
    expect(await codeOf(helper, `/photos/${photoId}`)).toBe(404);
    expect((await post(helper, "photos/removals", { id: newId(), photoId, boxId })).status()).toBe(404);
    expect((await sendPicture(helper, { id: newId(), purpose: "set-out", of: outingId })).status()).toBe(404);
    expect(await codeOf(owner, `/photos/${photoId}`)).toBe(200);
  });

  it("ends at once when it is taken back", async () => {
    await owner.page.getByText("Somebody helps you", { exact: true }).click();
    await owner.page.getByRole("button", { name: "Take the link back" }).click();
    await owner.page.getByRole("button", { name: "Make a link" }).waitFor();
    const late = await post(helper, "grades", gradeOf(owned.boxIds[1]!, 45));
    expect([late.status(), (await late.json()).reason]).toEqual([401, "HELPER_LINK_ENDED"]);
    await helper.page.goto("/h");
    await helper.page.getByRole("heading", { name: "This link opens nothing" }).waitFor();
    await helper.page.goto(link);
    await helper.page.getByRole("heading", { name: "This link opens nothing" }).waitFor();
    expect(await codeOf(helper, "/h/boxes/1/grade")).toBe(404);
  });
});
