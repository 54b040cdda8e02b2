import { expect, inject, it } from "vitest";
import { launchBrowser } from "../harness/browser";

it("serves a healthy first page to a browser", async () => {
  const { origin } = inject("app");
  const health = await fetch(`${origin}/api/health`);
  expect(health.status).toBe(200);
  const browser = await launchBrowser();
  try {
    const page = await browser.newPage();
    const answer = await page.goto(origin);
    expect(answer?.status()).toBe(200);
    expect(await page.locator("h1").count()).toBe(1);
  } finally {
    await browser.close();
  }
});
