/*
 * How heavy and how quick recording a box is on a slow phone: Chromium with its processor slowed four times and slow 4G
 * (562 ms of latency, 1.44 Mbit/s down and 0.675 up, as the browser's own tools have it), nothing cached. Takes the
 * first box of the demo's grower that isn't recorded, answers every question and stops at the overview, so nothing is
 * recorded. Prints the JavaScript of the first load and what comes after it (gzip, without the answers' headers),
 * Largest Contentful Paint, layout shift, and each question's longest interaction. Wanted: 150 kB, 2.5 s, 0.1, 200 ms.
 * Run it on an otherwise idle machine: everything else slows what it measures.
 * From the project's root, while `npm start` runs there:
 *   npx esbuild tests/benchmark/field-step.ts --bundle --platform=node --format=cjs --packages=external --outfile=dist/field-step.cjs
 *   node dist/field-step.cjs http://127.0.0.1:3000 CHROMIUM
 * with the path of a Chromium.
 */
import { readFileSync } from "node:fs";
import { type CDPSession, chromium, type Page } from "playwright-core";
import { firstScripts, sentBytes } from "../harness/script-bytes";

const SLOW_4G = { latency: 562.5, downloadThroughput: 184_320, uploadThroughput: 84_375, offline: false };
const PROCESSOR_SLOWDOWN = 4;
/** Questions from the cautions to the weights. */
const QUESTIONS = 8;

interface Vitals {
  readonly lcpMs: number;
  readonly shift: number;
  /** By the browser's number of an interaction; below 16 ms it names none. */
  readonly interactionsMs: Readonly<Record<string, number>>;
}

const [origin, executablePath] = process.argv.slice(2);
if (!origin || !executablePath) throw new Error("Give the origin and a Chromium.");
measure(origin, executablePath);

async function measure(baseURL: string, browserPath: string): Promise<void> {
  const browser = await chromium.launch({ executablePath: browserPath, args: ["--no-sandbox"] });
  try {
    const viewport = { width: 390, height: 844 };
    const context = await browser.newContext({ baseURL, viewport, isMobile: true, hasTouch: true });
    const path = await unrecordedBox(await context.newPage());
    const page = await context.newPage();
    await slowDown(await context.newCDPSession(page));
    await page.addInitScript(observe);
    const loaded = new Set<string>();
    page.on("response", (answer) => {
      if (answer.request().resourceType() === "script") loaded.add(new URL(answer.url()).pathname);
    });
    const answer = await page.goto(path, { waitUntil: "networkidle" });
    const first = firstScripts(await answer!.text());
    const later = [...loaded].filter((script) => !first.includes(script));
    const { lcpMs, shift } = await vitalsOf(page);
    const questions = await answerAll(page);
    console.log(
      `${path}: ${kB(await sentBytes(baseURL, first))} of JavaScript at first, ` +
        `${kB(await sentBytes(baseURL, later))} after it; ` +
        `LCP ${(lcpMs / 1000).toFixed(2)} s; layout shift ${shift.toFixed(3)} at load, ` +
        `${(await vitalsOf(page)).shift.toFixed(3)} over all questions`,
    );
    for (const line of questions) console.log(line);
  } finally {
    await browser.close();
  }
}

const kB = (bytes: number): string => `${(bytes / 1000).toFixed(1)} kB`;

/** Signs in as the demo's grower and gives the path of a box that is out and has no record. */
async function unrecordedBox(page: Page): Promise<string> {
  const list = JSON.parse(readFileSync(".data/demo-sign-ins.json", "utf8")) as Record<string, string>[];
  const grower = list.find(({ role }) => role === "grower")!;
  await page.goto("/sign-in");
  await page.getByLabel("Email address").fill(grower.email!);
  await page.getByLabel("Password", { exact: true }).fill(grower.password!);
  await page.getByRole("button", { name: "Sign in", exact: true }).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/sign-in"));
  await page.goto("/outings");
  for (const set of await pathsOf(page, /^\/outings\/[0-9a-f-]{36}$/)) {
    await page.goto(set);
    for (const box of await pathsOf(page, /^\/outings\/[0-9a-f-]{36}\/boxes\/\d+\/grade$/)) {
      await page.goto(box);
      if (await page.getByRole("heading", { name: "Before you touch the box" }).isVisible()) return box;
    }
  }
  throw new Error(
    "The demo's grower has no box without a record, so nothing is measured. Load the demo anew.",
  );
}

async function pathsOf(page: Page, pattern: RegExp): Promise<string[]> {
  const all = await page
    .locator("main a")
    .evaluateAll((links) => links.map((link) => link.getAttribute("href") ?? ""));
  return [...new Set(all)].filter((path) => pattern.test(path));
}

async function slowDown(devtools: CDPSession): Promise<void> {
  await devtools.send("Network.enable");
  await devtools.send("Network.setCacheDisabled", { cacheDisabled: true });
  await devtools.send("Network.emulateNetworkConditions", SLOW_4G);
  await devtools.send("Emulation.setCPUThrottlingRate", { rate: PROCESSOR_SLOWDOWN });
}

/** Runs in the page before anything else: keeps the paints, shifts and interactions that it sees. */
function observe(): void {
  const vitals = { lcpMs: 0, shift: 0, interactionsMs: {} as Record<string, number> };
  Object.assign(window, { vitals });
  const watch = (type: string, take: (entry: PerformanceEntry) => void, options = {}) =>
    new PerformanceObserver((list) => list.getEntries().forEach(take)).observe({
      type,
      buffered: true,
      ...options,
    });
  watch("largest-contentful-paint", ({ startTime }) => {
    vitals.lcpMs = startTime;
  });
  watch("layout-shift", (entry) => {
    const { hadRecentInput, value } = entry as PerformanceEntry & { hadRecentInput: boolean; value: number };
    if (!hadRecentInput) vitals.shift += value;
  });
  const interactions = (entry: PerformanceEntry) => {
    const { interactionId: id } = entry as PerformanceEntry & { interactionId: number };
    if (id > 0) vitals.interactionsMs[id] = Math.max(vitals.interactionsMs[id] ?? 0, entry.duration);
  };
  watch("event", interactions, { durationThreshold: 16 });
}

const vitalsOf = (page: Page): Promise<Vitals> =>
  page.evaluate(() => (window as unknown as { vitals: Vitals }).vitals);

/** Answers each question and goes on, to the overview; gives for each what its interactions took. */
async function answerAll(page: Page): Promise<string[]> {
  const title = page.locator("form h2");
  const lines: string[] = [];
  let seen = new Set<string>();
  for (let question = await title.textContent(); question !== "What you answered"; ) {
    const said = await answerOne(page);
    await page.locator("form button[type=submit]").tap();
    await page.waitForFunction((was) => document.querySelector("form h2")?.textContent !== was, question);
    await page.waitForTimeout(500); // what the browser saw is told a little later
    const all = Object.entries((await vitalsOf(page)).interactionsMs);
    const here = all.filter(([id]) => !seen.has(id)).map(([, ms]) => ms);
    if (here.length === 0) throw new Error(`No interaction was seen at “${question}”.`);
    lines.push(
      `  ${String(Math.max(...here)).padStart(4)} ms longest of ${here.length}: ${question} (${said})`,
    );
    seen = new Set(all.map(([id]) => id));
    question = await title.textContent();
  }
  if (lines.length !== QUESTIONS) throw new Error(`${lines.length} questions were asked, not ${QUESTIONS}.`);
  return lines;
}

/** Picks what has most to show, ticks all there is to tick and types every number; gives how many answers that were. */
async function answerOne(page: Page): Promise<string> {
  let picked = 0;
  const radios = page.locator("form input[type=radio]");
  if ((await radios.count()) > 0) {
    await page.locator("form label:has(input[type=radio])").nth(1).tap();
    picked++;
  }
  for (const tick of await page.locator("form label:has(input[type=checkbox])").all()) {
    await tick.tap();
    picked++;
  }
  const numbers = await page.locator("form input[inputmode=decimal]").all();
  for (const number of numbers) {
    await number.tap();
    await number.pressSequentially("45");
  }
  return `${picked} picked, ${numbers.length} typed`;
}
