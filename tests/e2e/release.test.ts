import { createHash } from "node:crypto";
import AxeBuilder from "@axe-core/playwright";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { openDatabase } from "@/lib/data/client";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { recordGrade } from "@/lib/services/growing/grades";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { closeTrial, grade, joinedGrower, newOpenTrial, plan, run } from "../database/growing-fixture";
import { launchBrowser } from "../harness/browser";
import { demoPerson, newId, origin, stranger, type Visitor } from "./visitor";

let trial: { readonly id: string; readonly slug: string };
let browser: Browser;
let lead: Visitor;
let reader: Visitor;

beforeAll(async () => {
  browser = await launchBrowser();
  lead = await demoPerson(browser, "lead");
  trial = await closedTrial(lead.email!);
  reader = await stranger(browser);
});
afterAll(() => browser.close());

/** A trial of its own, since a release stays: four growers with a set each, closed, led by the demo's lead. */
async function closedTrial(email: string): Promise<typeof trial> {
  Object.assign(process.env, {
    DATABASE_URL: inject("app").ownerUrl,
    GRAINLOT_MODE: "demo",
    NEXTAUTH_SECRET: "0123456789abcdefghijklmnopqrstuvwxyz0123",
    NEXTAUTH_URL: origin,
    GRAINLOT_SEAL_KEY: "4f".repeat(32),
  });
  const db = openDatabase(inject("app").ownerUrl);
  const open = await newOpenTrial(db);
  const account = await db.account.findUniqueOrThrow({ where: { email } });
  await db.trialLead.create({ data: { trialId: open.id, accountId: account.id } });
  for (let number = 0; number < 4; number++) {
    const { grower, siteId } = await joinedGrower(db, open);
    const outing = plan(open, siteId);
    await run(db, (tx) => planOuting(tx, grower, outing));
    await run(db, (tx) => drawOuting(tx, grower, { id: newId(), outingId: outing.id }));
    for (const [i, { id }] of outing.boxes.entries()) {
      const recorded = await run(db, (tx) => recordGrade(tx, grower, grade(id, 20 * ((i + number) % 5))));
      expect(recorded).toMatchObject({ ok: true });
    }
  }
  await closeTrial(db, open);
  const { slug } = await db.trial.findUniqueOrThrow({ where: { id: open.id } });
  await db.$disconnect();
  return { id: open.id, slug };
}

const release = () => `/trials/${trial.slug}/release`;
const sha256 = (bytes: Buffer): string => createHash("sha256").update(bytes).digest("hex");

describe("the recruiting poster", () => {
  it("comes as PDF, to the lead", async () => {
    const answer = await lead.page.request.get(`/lead/trials/${trial.id}/recruit/poster`);
    expect(answer.headers()["content-type"]).toBe("application/pdf");
    expect((await answer.body()).subarray(0, 5).toString()).toBe("%PDF-");
  });
});

describe("final results", () => {
  it("are looked at and released by the lead, who can't do so without saying so", async () => {
    const { page } = lead;
    await page.goto(`/lead/trials/${trial.id}`);
    await page.getByRole("link", { name: "Final results" }).click();
    await page.getByRole("region", { name: "The first rows" }).waitFor();
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
    expect((await reader.page.goto(release()))!.status()).toBe(404);
    await page.getByRole("button", { name: "Release" }).click();
    await page.getByText("Tick the box first.", { exact: true }).waitFor();
    await page.getByLabel(/^I have looked at it/).check();
    await page.getByRole("button", { name: "Release" }).click();
    await page.waitForURL((url) => url.pathname === release());
    await page.goto(`/lead/trials/${trial.id}/release`);
    await page.getByText("It is released. Everyone can read it.").waitFor();
  });

  it("are found by a reader without an account, with files that carry the hashes shown", async () => {
    const { page } = reader;
    await page.goto(`/trials/${trial.slug}`);
    await page.getByRole("link", { name: "Final results", exact: true }).click();
    await page.waitForURL((url) => url.pathname === `/trials/${trial.slug}/results`);
    await page.getByRole("link", { name: "Rows, methods and how to cite it" }).click();
    await page.waitForURL((url) => url.pathname === release());
    const shown = (await page.locator("main").textContent())!;
    for (const name of [
      "rows.csv",
      "figures.json",
      "results.json",
      "methods.txt",
      "plan.json",
      "release.json",
    ]) {
      const answer = await page.request.get(`${release()}/${name}`);
      const hash = sha256(await answer.body());
      expect(shown, name).toContain(hash);
      expect(answer.headers().etag).toBe(`"${hash}"`);
      expect(answer.headers()["cache-control"]).toContain("immutable");
      const again = await page.request.get(`${release()}/${name}`, {
        headers: { "if-none-match": `"${hash}"` },
      });
      expect(again.status()).toBe(304);
    }
    expect((await page.request.get(`${release()}/secret.txt`)).status()).toBe(404);
    expect((await new AxeBuilder({ page }).analyze()).violations).toEqual([]);
  });
});
