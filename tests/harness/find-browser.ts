import { spawnSync } from "node:child_process";
import { existsSync } from "node:fs";
import { delimiter, join } from "node:path";
import { chromium } from "playwright-core";
import { run } from "@/lib/launch/run.mjs";
import { root } from "./root";

/** A browser that was started once to see that it works. */
export type FoundBrowser = { readonly path: string; readonly name: string; readonly version: string };

const fetchWithinMs = 600_000;
const systemNames = [
  "chromium",
  "chromium-browser",
  "google-chrome",
  "google-chrome-stable",
  "microsoft-edge",
];
const macPaths = ["Google Chrome", "Chromium", "Microsoft Edge"].map(
  (name) => `/Applications/${name}.app/Contents/MacOS/${name}`,
);

/** What a test browser must not do: talk to the network by itself. Root has no sandbox to be put in. */
export const browserArguments = [
  ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
  "--disable-gpu",
  "--disable-quic",
  "--no-first-run",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-sync",
];

/**
 * Looks in GRAINLOT_BROWSER and CHROME_PATH, then at the system's browsers, then in Playwright's folder; fetches
 * one if there is none (Playwright's, or Debian's package when root).
 * @throws Error with one sentence saying what to do
 */
export async function findBrowser(): Promise<FoundBrowser> {
  const named = process.env.GRAINLOT_BROWSER || process.env.CHROME_PATH;
  if (named) {
    const found = await tryBrowser(named);
    if (found) return found;
    throw new Error(
      `${named}, named by GRAINLOT_BROWSER or CHROME_PATH, is no browser that starts here. Correct or unset it.`,
    );
  }
  const found = await firstThatStarts();
  if (found) return found;
  console.log("No browser found: fetching one …");
  await run(process.execPath, ["node_modules/playwright-core/cli.js", "install", "chromium"], {
    cwd: root,
    timeoutMs: fetchWithinMs,
  });
  const fetched = await firstThatStarts();
  if (fetched) return fetched;
  if (process.getuid?.() === 0 && spawnSync("apt-get", ["--version"]).status === 0) await installWithApt();
  const installed = await firstThatStarts();
  if (installed) return installed;
  throw new Error(
    "The browser tests need Chromium, and none could be found or fetched. Install it (Debian: apt-get install chromium) or name a Chrome, Chromium or Edge in GRAINLOT_BROWSER.",
  );
}

async function installWithApt(): Promise<void> {
  const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
  await run("apt-get", ["update"], { env, timeoutMs: fetchWithinMs });
  await run("apt-get", ["install", "-y", "--no-install-recommends", "chromium"], {
    env,
    timeoutMs: fetchWithinMs,
  });
}

async function firstThatStarts(): Promise<FoundBrowser | null> {
  const folders = (process.env.PATH ?? "").split(delimiter).filter(Boolean);
  const onPath = systemNames.flatMap((name) => folders.map((folder) => join(folder, name)));
  for (const path of [...onPath, ...macPaths, chromium.executablePath()]) {
    const found = existsSync(path) ? await tryBrowser(path) : null;
    if (found) return found;
  }
  return null;
}

async function tryBrowser(path: string): Promise<FoundBrowser | null> {
  try {
    const browser = await chromium.launch({ executablePath: path, args: browserArguments, timeout: 60_000 });
    const version = browser.version();
    await browser.close();
    const name = /edge/i.test(path) ? "Edge" : /google|chrome\b/i.test(path) ? "Chrome" : "Chromium";
    return { path, name, version };
  } catch {
    return null;
  }
}
