/*
 * `grainlot pool` and lme4 on the same tables: processor time and peak memory of both whole processes, and how far
 * their figures lie apart. lme4 is left out where R isn't installed. Linux; from the project's root, after
 * `npm run prepare` (about ten minutes with R):
 *   npx esbuild tests/benchmark/pool-and-lme4.ts --bundle --platform=node --format=cjs --outfile=dist/pool-and-lme4.cjs
 *   node dist/pool-and-lme4.cjs [COMMAND, dist/grainlot.cjs if not given]
 */
import { spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { writeBenchTable } from "./bench-table";
import { type Measured, measured } from "./measured";

interface Fit {
  readonly criterion: number;
  readonly variance: Readonly<Record<string, number>>;
  readonly cells: readonly {
    readonly band: string;
    readonly arm: string;
    readonly estimate: number;
    readonly se: number;
  }[];
}

const COMMAND = process.argv[2] ?? "dist/grainlot.cjs";
const SCRIPT = "tests/benchmark/lme4.R";
const hasR = spawnSync("Rscript", ["-e", "library(lme4); library(jsonlite)"]).status === 0;
const folder = mkdtempSync(join(tmpdir(), "grainlot-bench-"));
main().finally(() => {
  rmSync(folder, { recursive: true, force: true });
});

async function main(): Promise<void> {
  if (!hasR) console.log("R with lme4 and jsonlite isn't installed: the command alone is measured.");
  await compare(10_000, ["tight"]);
  await compare(100_000, ["as it comes", "no-derivatives"]);
  await alone(200_000);
  await alone(1_000_000);
}

/** @param ways how lme4 is run, one run each: see its script */
async function compare(boxes: number, ways: readonly string[]): Promise<void> {
  const ours = await alone(boxes);
  if (hasR) for (const way of ways) await against(ours, boxes, way);
}

async function against(ours: Pooled, boxes: number, way: string): Promise<void> {
  const output = join(folder, "lme4.json");
  const theirs = await measured("Rscript", [SCRIPT, table(boxes), way], output);
  if (theirs.code !== 0) throw new Error("lme4 ended with an error; its words stand above.");
  report(`lme4 ${way}`, boxes, theirs);
  const processor = (theirs.processorS / ours.measured.processorS).toFixed(0);
  const memory = ((100 * ours.measured.peakMb) / theirs.peakMb).toFixed(0);
  console.log(`  lme4 takes ${processor} times the processor time; the command ${memory} % of lme4's memory`);
  reportGap(ours.fit, JSON.parse(readFileSync(output, "utf8")));
}

interface Pooled {
  readonly fit: Fit;
  readonly measured: Measured;
}

async function alone(boxes: number): Promise<Pooled> {
  writeBenchTable(table(boxes), boxes);
  const output = join(folder, "pool.json");
  const took = await measured(process.execPath, [COMMAND, "pool", table(boxes), "--json"], output);
  if (took.code !== 0) throw new Error("grainlot pool ended with an error; its words stand above.");
  report("grainlot", boxes, took);
  const { model, cells } = JSON.parse(readFileSync(output, "utf8"));
  return { fit: { criterion: model.criterion, variance: model.variance, cells }, measured: took };
}

function table(boxes: number): string {
  return join(folder, `${boxes}.csv`);
}

function report(program: string, boxes: number, { processorS, peakMb }: Measured): void {
  const name = `${program.padEnd(19)} ${boxes.toLocaleString("en").padStart(9)} boxes`;
  console.log(`${name}  ${processorS.toFixed(2).padStart(8)} s  ${peakMb.toFixed(0).padStart(5)} MB`);
}

function reportGap(ours: Fit, theirs: Fit): void {
  const relative = (a: number, b: number): number => Math.abs(a - b) / Math.abs(b);
  const own = new Map(ours.cells.map((cell) => [`${cell.band} ${cell.arm}`, cell]));
  const gaps = (key: "estimate" | "se"): number =>
    Math.max(...theirs.cells.map((cell) => relative(own.get(`${cell.band} ${cell.arm}`)![key], cell[key])));
  const variances = Object.entries(theirs.variance).map(([name, value]) =>
    relative(ours.variance[name]!, value),
  );
  console.log(
    `  largest relative gap: estimates ${gaps("estimate").toExponential(1)}, standard errors ` +
      `${gaps("se").toExponential(1)}, variances ${Math.max(...variances).toExponential(1)}; criterion, ours less ` +
      `lme4's: ${(ours.criterion - theirs.criterion).toExponential(1)}`,
  );
}
