import type { APIResponse, Browser, BrowserContext, Page } from "playwright-core";
import { v7 } from "uuid";
import { inject } from "vitest";

export const origin = inject("app").origin;
export const PHONE = { width: 390, height: 844 };
export const DESK = { width: 1280, height: 900 };

/** One person with a browser of their own. */
export interface Visitor {
  readonly context: BrowserContext;
  readonly page: Page;
  readonly email: string | null;
}

/** Somebody without an account. */
export async function stranger(browser: Browser, viewport = PHONE): Promise<Visitor> {
  const context = await browser.newContext({ baseURL: origin, viewport });
  return { context, page: await context.newPage(), email: null };
}

/** Makes an account through the sign-up page. */
export async function newGrower(browser: Browser, name: string): Promise<Visitor> {
  const { context, page } = await stranger(browser);
  await page.goto("/sign-up");
  return { context, page, email: await signUp(page, name) };
}

/** Fills the sign-up page that is open, with the code of a household to belong to, and gives the address. */
export async function signUp(page: Page, name: string, householdCode = ""): Promise<string> {
  const email = `${name.toLowerCase()}-${v7().slice(-8)}@growers.example`;
  await page.getByLabel("Your name").fill(name);
  await page.getByLabel("Email address").fill(email);
  await page.getByLabel("Password", { exact: true }).fill(`${name} ladle thimble orchard`);
  await page.getByLabel("Household code").fill(householdCode);
  await page.getByRole("button", { name: "Make my account" }).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/sign-up"));
  return email;
}

/** Signs in as one of the demo's people, through the sign-in page. */
export async function demoPerson(
  browser: Browser,
  role: "grower" | "lead" | "admin",
  viewport = DESK,
): Promise<Visitor> {
  const signIn = inject("app").signIns.find((each) => each.role === role);
  if (!signIn) throw new Error(`The demo has no sign-in for the ${role}.`);
  const { context, page } = await stranger(browser, viewport);
  await page.goto("/sign-in");
  await page.getByLabel("Email address").fill(signIn.email);
  await page.getByLabel("Password", { exact: true }).fill(signIn.password);
  await page.getByRole("button", { name: "Sign in", exact: true }).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/sign-in"));
  return { context, page, email: signIn.email };
}

/** Sends what a phone would send, with the cookies of this visitor. */
export function post(visitor: Visitor, noun: string, body: unknown): Promise<APIResponse> {
  return visitor.context.request.post(`/api/v1/${noun}`, { data: body, headers: { origin } });
}

export const newId = (): string => v7();
