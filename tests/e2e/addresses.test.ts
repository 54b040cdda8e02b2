import { readdirSync } from "node:fs";
import { basename, dirname, join } from "node:path";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { DEMO_CLOSED_TRIAL, DEMO_OPEN_TRIAL } from "../../prisma/seed/trials";
import { launchBrowser } from "../harness/browser";
import { root } from "../harness/root";
import { type Belongings, planSet } from "./growing";
import { demoPerson, newGrower, stranger, type Visitor } from "./visitor";

/** Every page and route at addresses nobody was given: there is nothing there, and nothing breaks. */
const ODD = {
  "a NUL": "%00",
  "a lone per cent sign": "%",
  "half a letter": "%c3",
  "5,000 letters": "a".repeat(5000),
  "a way upwards": "..%2f..%2fetc%2fpasswd",
  "right-to-left text, HTML and an emoji": encodeURIComponent("\u202eאב<b>🍄'"),
};

/** Whatever a page reads from its query. */
const QUERY =
  "after before box closed code ended follows group kind left next open page receipt recipes search sent to token trial unknown";

let browser: Browser;
let owned: Belongings;
const people = {} as Record<"owner" | "lead" | "nobody", Visitor>;

beforeAll(async () => {
  browser = await launchBrowser();
  people.owner = await newGrower(browser, "Uxia");
  people.lead = await demoPerson(browser, "lead");
  people.nobody = await stranger(browser);
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
      const answer = await request.get(path, { maxRedirects: 0 });
      return { path: path.slice(0, 100), code: answer.status(), text: await answer.text() };
    }),
  );
}

describe.each(Object.entries(ODD))("an address with %s in it", (_name, odd) => {
  it.each(["owner", "lead", "nobody"] as const)("leads the %s to no page and breaks nothing", async (who) => {
    expect(withParts.length).toBeGreaterThan(40);
    const inner = [
      `/outings/${owned.outingId}/boxes/${odd}/grade`,
      `/lead/trials/${DEMO_OPEN_TRIAL.id}/boxes/${odd}`,
      `/trials/${DEMO_CLOSED_TRIAL.slug}/release/${odd}`,
    ];
    const paths = [...withParts.map((route) => route.replace(/\[[^\]]+\]/g, odd)), ...inner];
    for (const { path, code, text } of await answers(who, paths)) {
      expect([303, 307, 400, 401, 404, 405, 409], `${path} ${code}`).toContain(code);
      expect(text, path).not.toMatch(/node_modules|Prisma|at \w+ \(/);
    }
  });

  it("is no trouble in what a page is asked with either", async () => {
    const query = QUERY.split(" ").map((name) => `${name}=${odd.slice(0, 500)}`);
    const lead = ["people", "letters", "corrections", "told", "design"].map(
      (part) => `/lead/trials/${DEMO_OPEN_TRIAL.id}/${part}`,
    );
    for (const one of [pages, lead].flat()) {
      const asked = await answers("lead", [`${one}?${query.join("&")}`]);
      expect(asked[0]!.code, asked[0]!.path).toBeLessThan(500);
    }
  });
});
