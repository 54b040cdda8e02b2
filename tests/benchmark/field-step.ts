/*
 * How heavy and how quick a page is on a slow phone: Chromium with its processor slowed four times and slow 4G (562 ms
 * of latency, 1.44 Mbit/s down and 0.675 up, as the browser's own tools have it), nothing cached. Prints the first
 * load's JavaScript as sent (gzip), Largest Contentful Paint, layout shift, and the longest interaction while every
 * question is answered; answers stay on the phone, nothing is recorded. Wanted: 150 kB, 2.5 s, 0.1, 200 ms.
 * The bytes hold the answers' headers (about 1 kB each) and the picture field, which comes after the first showing. Run
 * it on an otherwise idle machine: everything else slows what it measures.
 * From the project's root, while `npm start` runs there:
 *   npx esbuild tests/benchmark/field-step.ts --bundle --platform=node --format=cjs --packages=external --outfile=dist/field-step.cjs
 *   node dist/field-step.cjs http://127.0.0.1:3000 /outings/SET/boxes/1/grade CHROMIUM
 * with the path of a box of the demo's grower that isn't recorded, and that of a Chromium.
 */
import { readFileSync } from "node:fs";
import { type CDPSession, chromium, type Page } from "playwright-core";

const SLOW_4G = { latency: 562.5, downloadThroughput: 184_320, uploadThroughput: 84_375, offline: false };
const PROCESSOR_SLOWDOWN = 4;

interface Vitals {
  readonly lcpMs: number;
  readonly shift: number;
  readonly interactionsMs: readonly number[];
}

const [origin, path, executablePath] = process.argv.slice(2);
if (!origin || !path || !executablePath) throw new Error("Give the origin, the path and a Chromium.");
measure(origin, path, executablePath);

async function measure(baseURL: string, page: string, browserPath: string): Promise<void> {
  const browser = await chromium.launch({ executablePath: browserPath, args: ["--no-sandbox"] });
  try {
    const viewport = { width: 390, height: 844 };
    const context = await browser.newContext({ baseURL, viewport, isMobile: true, hasTouch: true });
    await signIn(await context.newPage());
    const slow = await context.newPage();
    const devtools = await context.newCDPSession(slow);
    const scriptBytes = await slowDown(devtools);
    await slow.addInitScript(observe);
    await slow.goto(page, { waitUntil: "networkidle" });
    const firstLoad = scriptBytes();
    const { lcpMs, shift } = await vitalsOf(slow);
    await answerAll(slow);
    await slow.waitForTimeout(500);
    const after = await vitalsOf(slow);
    console.log(
      `${(firstLoad / 1000).toFixed(1)} kB of JavaScript; LCP ${(lcpMs / 1000).toFixed(2)} s; ` +
        `layout shift ${shift.toFixed(3)} at load, ${after.shift.toFixed(3)} over all questions; ` +
        `longest of ${after.interactionsMs.length} interactions ${Math.max(0, ...after.interactionsMs)} ms`,
    );
  } finally {
    await browser.close();
  }
}

async function signIn(page: Page): Promise<void> {
  const list = JSON.parse(readFileSync(".data/demo-sign-ins.json", "utf8")) as Record<string, string>[];
  const grower = list.find(({ role }) => role === "grower")!;
  await page.goto("/sign-in");
  await page.getByLabel("Email address").fill(grower.email!);
  await page.getByLabel("Password", { exact: true }).fill(grower.password!);
  await page.getByRole("button", { name: "Sign in", exact: true }).click();
  await page.waitForURL((url) => !url.pathname.startsWith("/sign-in"));
}

/** Slows the page's processor and network; gives how many bytes of script have come since. */
async function slowDown(devtools: CDPSession): Promise<() => number> {
  const scripts = new Set<string>();
  let bytes = 0;
  devtools.on("Network.responseReceived", ({ requestId, type }) => {
    if (type === "Script") scripts.add(requestId);
  });
  devtools.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => {
    if (scripts.has(requestId)) bytes += encodedDataLength;
  });
  await devtools.send("Network.enable");
  await devtools.send("Network.setCacheDisabled", { cacheDisabled: true });
  await devtools.send("Network.emulateNetworkConditions", SLOW_4G);
  await devtools.send("Emulation.setCPUThrottlingRate", { rate: PROCESSOR_SLOWDOWN });
  return () => bytes;
}

/** Runs in the page before anything else: keeps the paints, shifts and interactions that it sees. */
function observe(): void {
  const vitals = { lcpMs: 0, shift: 0, interactionsMs: [] as number[] };
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
    if ((entry as PerformanceEntry & { interactionId: number }).interactionId > 0) {
      vitals.interactionsMs.push(entry.duration);
    }
  };
  watch("event", interactions, { durationThreshold: 16 });
}

const vitalsOf = (page: Page): Promise<Vitals> =>
  page.evaluate(() => (window as unknown as { vitals: Vitals }).vitals);

/** Picks an answer of every question, types one number, and goes on, to the overview. */
async function answerAll(page: Page): Promise<void> {
  const goOn = () => page.locator("form button[type=submit]").tap();
  while ((await page.getByRole("heading", { name: "What you answered" }).count()) === 0) {
    const first = page.locator("form input[type=radio]").first();
    if ((await first.count()) > 0) await first.locator("xpath=ancestor::label").tap();
    const number = page.getByLabel(/^Your estimate/);
    if ((await number.count()) > 0) await number.pressSequentially("45");
    await goOn();
    await page.waitForTimeout(300);
  }
}
