import { existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { ensureInstalled } from "./install.mjs";
import { prepare } from "./prepare.mjs";
import { explainFileError, Problem } from "./problem.mjs";
import { endRunning, run } from "./run.mjs";
import { hashSources } from "./sources.mjs";

/** @typedef {{ passed: number, failed: number }} Count */
/** @typedef {{ name: string, work: (show: (text: string) => void) => Promise<Count> }} Step */

const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
const cruised = ["app", "lib", "shared", "tests", "proxy.ts", "instrumentation.ts"];

/** @param {{ quick: boolean }} options quick: without database and browser */
export async function test({ quick }) {
  for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM", "SIGHUP"])) {
    process.on(signal, () => {
      endRunning();
      process.exit(130);
    });
  }
  const counts = [await installAndPrepare()];
  if (counts[0]?.failed === 0) {
    // Two at a time: the quick steps are short, and a developer's machine has at least two cores.
    counts.push(...(await inTwos([unit, types, lint, importRules])));
    // These start servers and watch clocks: one after the other.
    if (!quick) for (const step of [database, browser]) counts.push(await carryOut(step, true));
  }
  const sum = (/** @type {keyof Count} */ key) => counts.reduce((total, count) => total + count[key], 0);
  console.log(`\n${sum("passed")} passed, ${sum("failed")} failed`);
  process.exit(sum("failed") === 0 ? 0 : 1);
}

/** @returns {Promise<Count>} nothing to count unless it failed: then no other step can run */
async function installAndPrepare() {
  try {
    await ensureInstalled(root, console.log);
    await prepare(root, hashSources(root));
    return { passed: 0, failed: 0 };
  } catch (error) {
    const explained = explainFileError(error, "installing");
    console.error(explained instanceof Problem ? explained.message : explained);
    return { passed: 0, failed: 1 };
  }
}

/**
 * @param {readonly Step[]} steps
 * @returns {Promise<Count[]>}
 */
async function inTwos(steps) {
  const waiting = [...steps];
  /** @type {Count[]} */
  const counts = [];
  const worker = async () => {
    for (let step = waiting.shift(); step; step = waiting.shift()) counts.push(await carryOut(step, false));
  };
  await Promise.all([worker(), worker()]);
  return counts;
}

/**
 * @param {Step} step
 * @param {boolean} live shows what it prints at once; otherwise only when something failed
 * @returns {Promise<Count>}
 */
async function carryOut({ name, work }, live) {
  const begun = Date.now();
  let printed = "";
  const show = (/** @type {string} */ text) => {
    if (live) process.stdout.write(text);
    else printed += text;
  };
  if (live) console.log(`\n${name}:`);
  const count = await work(show).catch((error) => {
    show(`${error instanceof Error ? error.message : error}\n`);
    return { passed: 0, failed: 1 };
  });
  if (count.failed > 0 && printed) console.log(`\n${printed.trimEnd()}`);
  const seconds = ((Date.now() - begun) / 1000).toFixed(1);
  console.log(`${name}: ${count.passed} passed, ${count.failed} failed (${seconds} s)`);
  return count;
}

/**
 * @param {(text: string) => void} show
 * @param {readonly string[]} args of node
 * @returns {Promise<boolean>}
 */
async function succeeds(show, args) {
  const { code } = await run(process.execPath, args, { cwd: root, onOutput: show });
  return code === 0;
}

/** @param {boolean} passed @returns {Count} */
const asOne = (passed) => (passed ? { passed: 1, failed: 0 } : { passed: 0, failed: 1 });

/** @type {Step} */
const types = {
  name: "Types",
  work: async (show) => {
    // Next's own types of pages and routes are generated; without pages there are none.
    const generated =
      !existsSync(join(root, "app", "layout.tsx")) ||
      (await succeeds(show, ["node_modules/next/dist/bin/next", "typegen"]));
    const checks = [];
    for (const project of ["tsconfig.json", "lib/engine/tsconfig.json", "lib/launch/tsconfig.json"]) {
      checks.push(await succeeds(show, ["node_modules/typescript/bin/tsc", "--noEmit", "-p", project]));
    }
    return asOne(generated && checks.every(Boolean));
  },
};

/** @type {Step} */
const lint = {
  name: "Lint",
  work: async (show) =>
    asOne(
      await succeeds(show, ["node_modules/@biomejs/biome/bin/biome", "check", "--error-on-warnings", "."]),
    ),
};

/** @type {Step} */
const importRules = {
  name: "Import rules",
  work: async (show) => {
    const present = cruised.filter((path) => existsSync(join(root, path)));
    const program = "node_modules/dependency-cruiser/bin/dependency-cruise.mjs";
    return asOne(await succeeds(show, [program, "--config", ".dependency-cruiser.mjs", ...present]));
  },
};

/** @type {Step} */
const unit = { name: "Unit tests", work: (show) => vitest(show, "unit") };
/** @type {Step} */
const database = { name: "Database tests", work: (show) => vitest(show, "database") };
/** @type {Step} */
const browser = { name: "Browser tests", work: (show) => vitest(show, "browser") };

/**
 * @param {(text: string) => void} show
 * @param {"unit" | "database" | "browser"} project
 * @returns {Promise<Count>} its tests; a run that broke before or beside them counts as one more that failed
 */
async function vitest(show, project) {
  const folder = mkdtempSync(join(tmpdir(), "grainlot-report-"));
  try {
    const report = join(folder, "report.json");
    const reporters = ["--reporter=default", "--reporter=json", `--outputFile.json=${report}`];
    const ran = await succeeds(show, [
      "node_modules/vitest/vitest.mjs",
      "run",
      "--project",
      project,
      ...reporters,
    ]);
    const { numPassedTests: passed = 0, numFailedTests: failed = 0 } = existsSync(report)
      ? JSON.parse(readFileSync(report, "utf8"))
      : {};
    const broke = (!ran && failed === 0) || passed + failed === 0;
    return { passed, failed: failed + (broke ? 1 : 0) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
