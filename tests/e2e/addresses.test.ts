import { readdirSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { DEMO_CLOSED_TRIAL, DEMO_OPEN_TRIAL } from "../../prisma/seed/trials";
import { launchBrowser } from "../harness/browser";
import { root } from "../harness/root";
import { type Belongings, planSet } from "./growing";
import { demoPerson, newGrower, type Visitor } from "./visitor";

/** Every page and route at addresses nobody was given: there is nothing there, and nothing breaks. */
const ODD = {
  "a NUL": "%00",
  "a lone per cent sign": "%",
  "half a letter": "%c3",
  "5,000 letters": "a".repeat(5000),
  "right-to-left text, HTML, an emoji and a way upwards": encodeURIComponent("\u202eאב<b>🍄'/../../etc"),
};

/** Those that no page can be at. */
const NOT_TEXT = ["a NUL", "a lone per cent sign", "half a letter"];

/** Whatever a page reads from its query. */
const QUERY =
  "after before box closed code ended follows group kind left next open page receipt recipes search sent to token trial unknown";

let browser: Browser;
let owned: Belongings;
const people = {} as Record<"owner" | "lead", Visitor>;

beforeAll(async () => {
  browser = await launchBrowser();
  people.owner = await newGrower(browser, "Uxia");
  people.lead = await demoPerson(browser, "lead");
  owned = await planSet(people.owner);
});
afterAll(() => browser.close());

const routes = readdirSync(join(root, "app"), { recursive: true, encoding: "utf8" })
  .filter((file) => ["page.tsx", "route.ts"].includes(basename(file)))
  .map((file) => (dirname(file) === "." ? "/" : `/${dirname(file)}`));
const withParts = routes.filter((route) => route.includes("["));
const pages = routes.filter((route) => !route.includes("[") && !route.startsWith("/api/"));

async function answers(who: keyof typeof people, paths: readonly string[]) {
  const { request } = people[who].context;
  return Promise.all(
    paths.map(async (path) => {
      const answer = await request.get(path, { maxRetries: 2 }); // a kept connection may end just as it is used again
      return { path: path.slice(0, 100), code: answer.status(), text: await answer.text() };
    }),
  );
}

/** Where every part that an address names is odd, or only the innermost, each for somebody who may see what is around it. */
const addresses = {
  owner: (odd: string) => [`/outings/${owned.outingId}/boxes/${odd}/grade`],
  lead: (odd: string) => [
    ...withParts.map((route) => route.replace(/\[[^\]]+\]/g, odd)),
    `/lead/trials/${DEMO_OPEN_TRIAL.id}/boxes/${odd}`,
    `/trials/${DEMO_CLOSED_TRIAL.slug}/release/${odd}`,
  ],
};

describe.each(Object.entries(ODD))("an address with %s in it", (name, odd) => {
  it.each(["owner", "lead"] as const)("leads the %s to nothing and breaks nothing", async (who) => {
    expect(withParts.length).toBeGreaterThan(40);
    for (const { path, code, text } of await answers(who, addresses[who](odd))) {
      expect(code, path).toBeLessThan(500);
      expect(text, path).not.toMatch(/node_modules|Prisma| at \w+ \(/);
      if (NOT_TEXT.includes(name)) expect(code, path).toBeGreaterThanOrEqual(400);
    }
  });

  it("is no trouble in what a page is asked with either", async () => {
    const query = QUERY.split(" ").map((each) => `${each}=${odd.slice(0, 500)}`);
    const lead = ["people", "letters", "corrections", "told", "design"].map(
      (part) => `/lead/trials/${DEMO_OPEN_TRIAL.id}/${part}`,
    );
    const asked = await answers(
      "lead",
      [...pages, ...lead].map((page) => `${page}?${query.join("&")}`),
    );
    for (const { path, code } of asked) expect(code, path).toBeLessThan(500);
  });
});
