import { readFileSync } from "node:fs";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import { DEMO_CLOSED_TRIAL, DEMO_OPEN_TRIAL } from "../../prisma/seed/trials";
import { runIn, scratchFolder } from "../cli/capture";
import { invented } from "../fixtures/ledger/make-ledger";
import { chainedAnew, otherwise } from "../fixtures/ledger/tamper";
import { launchBrowser } from "../harness/browser";
import { planSet } from "./growing";
import { newGrower, newId, origin, post, stranger } from "./visitor";

/** A stranger checks a closed trial in the browser and by the command; a grower finds the own draw. */
const proofOf = ({ slug }: { slug: string }) => `/trials/${slug}/proof`;

let browser: Browser;
let page: Page;
let ledger: LedgerFile;
const folder = scratchFolder();

beforeAll(async () => {
  browser = await launchBrowser();
  ({ page } = await stranger(browser));
  page.on("pageerror", (error) => expect.fail(error.message));
});
afterAll(async () => {
  folder.remove();
  await browser.close();
});

/** Has the page check a file and gives what it says of it. */
async function saidOf(content: unknown): Promise<string> {
  const text = typeof content === "string" ? content : JSON.stringify(content);
  await page.goto(proofOf(DEMO_CLOSED_TRIAL));
  const file = { name: "ledger.json", mimeType: "application/json", buffer: Buffer.from(text) };
  await page.getByLabel("Or check a ledger you kept").setInputFiles(file);
  const answer = page
    .locator("section", { hasText: "Check every pick" })
    .locator("[role=alert], [role=status]");
  await answer.first().waitFor();
  return answer.allTextContents().then((texts) => texts.join(" "));
}

describe("a closed trial", () => {
  it("is checked draw by draw from its own page, which the trial's page leads to", async () => {
    await page.goto(`/trials/${DEMO_CLOSED_TRIAL.slug}`);
    await page.getByRole("link", { name: "Check every pick yourself" }).click();
    await page.waitForURL((url) => url.pathname === proofOf(DEMO_CLOSED_TRIAL));
    await page.getByRole("button", { name: "Check every pick" }).click();
    await page.getByText(/^All \d+ picks stand/).waitFor();
  });

  it("hands out the ledger, which the command verifies against the line on the page", async () => {
    const downloading = page.waitForEvent("download");
    await page.getByRole("link", { name: "Download the ledger" }).click();
    const download = await downloading;
    expect(download.suggestedFilename()).toBe(`grainlot-${DEMO_CLOSED_TRIAL.slug}-ledger.json`);
    const text = readFileSync(await download.path(), "utf8");
    ledger = JSON.parse(text);
    folder.write("ledger.json", text);
    const line = await page.locator("dd", { hasText: /^[0-9a-f]{64},\d+,[0-9a-f]{64}$/ }).textContent();
    const { exitCode, stdout } = await runIn(folder.path, "verify", "ledger.json", "--head", line!);
    expect(exitCode).toBe(0);
    expect(stdout).toContain(`verified. All ${ledger.entries.length} draws`);
    expect(stdout).toContain("It agrees with the head");
  });

  it("accepts the copy a reader kept, and names what is wrong with a tampered one", async () => {
    const { entries } = ledger;
    expect(await saidOf(ledger)).toContain(`All ${entries.length} picks stand`);
    const changed = entries.map((entry, i) => (i === 16 ? otherwise(entry) : entry));
    expect(await saidOf({ ...ledger, entries: changed })).toMatch(/pick 17\.This pick was altered/);
    expect(await saidOf(chainedAnew(ledger, changed))).toMatch(/pick 17\.Picking again .* somebody chose/);
    expect(await saidOf({ ...ledger, entries: entries.toSpliced(8, 1) })).toMatch(
      /pick 9\.This pick does not follow/,
    );
    expect(await saidOf({ ...ledger, entries: entries.slice(0, -2) })).toContain(
      "Picks are missing at the end.",
    );
    expect(await saidOf({ ...ledger, secret: "0".repeat(64) })).toContain(
      "The secret is not the one that was sealed.",
    );
  });

  it("refuses what is no ledger of this trial with a sentence", async () => {
    expect(await saidOf(invented(4))).toContain("the ledger of another trial, “Invented example”");
    expect(await saidOf("{")).toContain("not JSON text");
    expect(await saidOf({ ...ledger, form: "grainlot-ledger/2" })).toContain("a form that is not known here");
    expect(await saidOf([])).toContain("not a trial's ledger");
  });

  it("finds a draw by its receipt, without any script", async () => {
    const { hash, number } = ledger.entries[40]!;
    const context = await browser.newContext({ baseURL: origin, javaScriptEnabled: false });
    const plain = await context.newPage();
    await plain.goto(proofOf(DEMO_CLOSED_TRIAL));
    await plain.getByLabel("Short fingerprint").fill(`${hash.slice(0, 8)}-${hash.slice(-8)}`);
    await plain.getByRole("button", { name: "Look it up" }).click();
    await plain.getByText(`This is pick ${number} of ${ledger.entries.length}. It stands`).waitFor();
    await context.close();
  });
});

describe("an open trial", () => {
  it("keeps its ledger closed: neither secret nor anybody's recipes can be had", async () => {
    const answer = await page.request.get(`/trials/${DEMO_OPEN_TRIAL.slug}/ledger`);
    expect(answer.status()).toBe(409);
    expect((await answer.json()).reason).toBe("LEDGER_SEALED");
    await page.goto(proofOf(DEMO_OPEN_TRIAL));
    const shown = (await page.locator("main").textContent())!;
    expect(shown).toContain("published when the trial closes");
    expect(await page.getByRole("button", { name: "Check every pick" }).count()).toBe(0);
    expect((await page.request.get("/trials/nowhere/ledger")).status()).toBe(404);
  });

  it("shows a grower that the own draw stands in the chain", async () => {
    const grower = await newGrower(browser, "Rosa");
    const { outingId } = await planSet(grower);
    const drawn = await post(grower, "draws", { id: newId(), outingId });
    const { shortHash, number } = await drawn.json();
    await grower.page.goto(`/outings/${outingId}`);
    await grower.page.locator("summary", { hasText: "Proof that nobody chose" }).click();
    await grower.page.getByRole("link", { name: "See whether it stands" }).click();
    await grower.page.getByText(`This is pick ${number} of`).waitFor();
    await page.goto(proofOf(DEMO_OPEN_TRIAL));
    await page.getByLabel("Short fingerprint").fill(` ${shortHash.toUpperCase()}`);
    await page.getByRole("button", { name: "Look it up" }).click();
    await page.getByText(`This is pick ${number} of`).waitFor();
    await page.getByLabel("Short fingerprint").fill("00000000-00000000");
    await page.getByRole("button", { name: "Look it up" }).click();
    await page.getByText("No pick of this trial carries this fingerprint.").waitFor();
  });
});
