import { AxeBuilder } from "@axe-core/playwright";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { launchBrowser } from "../harness/browser";
import { demoPerson, newGrower, origin, stranger, type Visitor } from "./visitor";

const WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"];
const PASSWORD = "Orsolya ladle thimble orchard";
const NEW_PASSWORD = "kettle marten hazel oak";

let browser: Browser;
let grower: Visitor;

beforeAll(async () => {
  browser = await launchBrowser();
  grower = await newGrower(browser, "Orsolya");
});
afterAll(() => browser.close());

/** Signs in by the form, in a browser of its own: another phone. */
async function otherPhone(email: string, password: string): Promise<Page> {
  const { page } = await stranger(browser);
  await page.goto("/sign-in?next=/account");
  await page.getByLabel("Email address").fill(email);
  await page.getByLabel("Password", { exact: true }).fill(password);
  await page.getByRole("button", { name: "Sign in", exact: true }).click();
  return page;
}

async function isSignedIn(page: Page): Promise<boolean> {
  await page.goto("/account");
  return new URL(page.url()).pathname === "/account";
}

/** The link of the newest mail, as the demo's admin reads it. */
async function newestMailedLink(): Promise<string> {
  const admin = await demoPerson(browser, "admin");
  await admin.page.goto("/admin/mails");
  const newest = await admin.page.locator("article").first().textContent();
  await admin.context.close();
  return newest?.match(/http\S+token=\S+/)?.[0] ?? "";
}

describe("a phone that isn't one's own", () => {
  it("is signed in until the browser closes, and nothing typed stays behind on it", async () => {
    const { page, context } = await stranger(browser);
    await page.goto("/sign-in?next=/account");
    await page.getByLabel("Email address").fill(grower.email!);
    await page.getByLabel("Password", { exact: true }).fill(PASSWORD);
    await page.getByLabel("This is not my phone").check();
    await page.getByRole("button", { name: "Sign in", exact: true }).click();
    await page.waitForURL(({ pathname }) => pathname === "/account");
    const session = (await context.cookies()).find(({ name }) => name.endsWith("grainlot.session"));
    expect(session?.expires).toBe(-1); // goes with the browser
    const type = () => page.evaluate(() => localStorage.setItem("grainlot-draft/x", '{"note":"typed"}'));
    const isKept = () => page.evaluate(() => localStorage.getItem("grainlot-draft/x") !== null);
    await type();
    await page.getByRole("button", { name: "Sign out", exact: true }).click();
    await page.waitForURL("**/sign-in");
    expect(await isKept()).toBe(false);
    // The browser closed without signing out: the cookie is gone, and the next page forgets the rest.
    await page.evaluate(() => localStorage.setItem("grainlot-borrowed", "1"));
    await type();
    await page.goto("/trials");
    await expect.poll(isKept).toBe(false);
    await context.close();
  });
});

describe("pages of accounts", () => {
  it("report nothing to axe, and the policy stops nothing of theirs", async () => {
    const admin = await demoPerson(browser, "admin");
    const { page: anybody } = await stranger(browser);
    const blocked: string[] = [];
    for (const page of [admin.page, anybody, grower.page]) {
      page.on("console", (message) => {
        if (/content security policy/i.test(message.text())) blocked.push(message.text());
      });
    }
    for (const [page, path] of [
      [anybody, "/sign-in"],
      [anybody, "/sign-up"],
      [anybody, "/forgot-password"],
      [anybody, "/reset-password?token=none"],
      [grower.page, "/account"],
      [admin.page, "/admin"],
      [admin.page, "/admin/mails"],
    ] as const) {
      await page.goto(path);
      const { violations } = await new AxeBuilder({ page }).withTags(WCAG).analyze();
      expect(violations.map(({ id, nodes }) => `${path} ${id} ${nodes[0]?.html}`)).toEqual([]);
    }
    expect(blocked).toEqual([]);
  });

  it("run their own scripts by nonce, a new one with every answer, and no other inline script", async () => {
    const nonces = new Set<string>();
    for (let i = 0; i < 3; i++) {
      const answer = await grower.context.request.get("/sign-in", { headers: { cookie: "" } });
      const nonce = answer.headers()["content-security-policy"]?.match(/'nonce-([^']+)'/)?.[1] ?? "";
      const scripts = (await answer.text()).match(/<script\b[^>]*>/g) ?? [];
      expect(scripts.length).toBeGreaterThan(3);
      for (const script of scripts) expect(script).toContain(`nonce="${nonce}"`);
      nonces.add(nonce);
      expect(answer.headers()).toMatchObject({
        "x-content-type-options": "nosniff",
        "permissions-policy": expect.stringContaining("geolocation=(self), camera=(self)"),
        "x-request-id": expect.stringMatching(/^[0-9a-f-]{36}$/),
      });
      expect(answer.headers()).not.toHaveProperty("x-powered-by");
    }
    expect(nonces.size).toBe(3);
    const { page } = await stranger(browser);
    await page.goto("/sign-in");
    const injected = await page.evaluate(() => {
      const script = document.createElement("div");
      script.innerHTML = '<img src="x" onerror="window.injected = true">';
      document.body.append(script);
      return new Promise((done) => setTimeout(() => done("injected" in window), 300));
    });
    expect(injected).toBe(false);
  });
});

describe("a form that can't be taken", () => {
  it("names each fault in a summary that takes focus, and keeps what was typed, a password too", async () => {
    const { page, context } = await stranger(browser);
    await page.goto("/sign-up");
    const send = () => page.getByRole("button", { name: "Make my account" }).click();
    const summary = page.locator("form > :focus");
    await send();
    for (const fault of [
      "Your name: Type a name.",
      "Email address: Type an email address.",
      "Password: Type a password.",
    ]) {
      await summary.getByText(fault).waitFor();
    }
    await page.getByLabel("Your name").fill("<b>Ana</b> أنا");
    await page.getByLabel("Password", { exact: true }).fill("short");
    await page.getByLabel("Email address").fill("ana@growers.example");
    await send();
    await summary.getByRole("link", { name: "Password" }).click();
    await expect
      .poll(() => page.evaluate(() => document.activeElement?.getAttribute("name")))
      .toBe("password");
    await context.setOffline(true);
    await send();
    await summary.getByText("Nothing came back").waitFor();
    expect(await page.getByLabel("Password", { exact: true }).inputValue()).toBe("short");
    expect(await page.getByLabel("Your name").inputValue()).toBe("<b>Ana</b> أنا");
    await context.close();
  });
});

describe("a session", () => {
  it("lasts half a year in a cookie scripts can't read", async () => {
    const cookie = (await grower.context.cookies()).find(({ name }) => name.endsWith("grainlot.session"));
    expect(cookie).toMatchObject({ httpOnly: true, sameSite: "Lax", path: "/" });
    const days = (cookie!.expires - Date.now() / 1000) / 86_400;
    expect(days).toBeGreaterThan(179);
  });

  it("ends on every phone by signing out everywhere", async () => {
    const other = await otherPhone(grower.email!, PASSWORD);
    await other.waitForURL("**/account");
    await other.getByRole("button", { name: "Sign out everywhere" }).click();
    await other.waitForURL("**/sign-in");
    expect(await isSignedIn(grower.page)).toBe(false);
    const answer = await grower.context.request.get(`${origin}/account/data`);
    expect(answer.status()).toBe(401);
    expect(await answer.text()).not.toContain("Orsolya");
  });

  it("starts again with a new password set by mail, and the link works once", async () => {
    const { page } = grower;
    await page.goto("/forgot-password");
    await page.getByLabel("Email address").fill(grower.email!);
    await page.getByRole("button", { name: "Send me the link" }).click();
    await page.getByRole("status").waitFor();
    const link = await newestMailedLink();
    await page.goto(link);
    await page.getByLabel("New password").fill(NEW_PASSWORD);
    await page.getByRole("button", { name: "Save the new password" }).click();
    await page.waitForURL(({ pathname }) => pathname === "/account");
    await page.goto(link);
    expect(await page.getByText("no longer works").count()).toBe(1);
    const old = await otherPhone(grower.email!, PASSWORD);
    await old.getByRole("alert").filter({ hasText: "don't belong together" }).waitFor();
  });

  it("starts in the demo with one tap per role", async () => {
    const { page } = await stranger(browser);
    await page.goto("/sign-in?next=/lead");
    await page.getByRole("button", { name: "a trial's lead" }).click();
    await page.waitForURL("**/lead");
    expect(await page.content()).not.toContain(inject("app").signIns[0]!.password);
  });

  it("never leads to another site after signing in", async () => {
    const { page } = await stranger(browser);
    await page.goto("/sign-in?next=//evil.example/");
    await page.getByLabel("Email address").fill(grower.email!);
    await page.getByLabel("Password", { exact: true }).fill(NEW_PASSWORD);
    await page.getByRole("button", { name: "Sign in", exact: true }).click();
    await page.waitForURL((url) => url.pathname === "/");
    expect(new URL(page.url()).origin).toBe(origin);
  });
});

describe("leaving", () => {
  it("takes one's data along, deletes the account and signs out", async () => {
    const { page } = grower;
    await page.goto("/account");
    const [download] = await Promise.all([
      page.waitForEvent("download"),
      page.getByRole("link", { name: "Download my data" }).click(),
    ]);
    expect(download.suggestedFilename()).toBe("grainlot-my-data.json");
    const form = page
      .locator("form")
      .filter({ has: page.getByRole("button", { name: /Delete my account/ }) });
    await form.getByLabel("Your password now").fill(NEW_PASSWORD);
    await form.getByRole("button").click();
    await page.waitForURL("**/sign-in?left**");
    expect(await isSignedIn(page)).toBe(false);
    const again = await otherPhone(grower.email!, NEW_PASSWORD);
    await again.getByRole("alert").filter({ hasText: "don't belong together" }).waitFor();
  });
});
