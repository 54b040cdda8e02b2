/*
 * Processor time and peak memory of reading a table, of its canonical order and hash, and of the rank test. The
 * tables are invented by a seeded generator: 12 arms, 5 climate groups, four outings of four boxes a grower, 8 %
 * lost; once with the columns it needs and once with box and available beside them.
 * From the project's root (about ten seconds):
 *   npx esbuild tests/simulation/bench-reader.ts --bundle --platform=node --format=cjs --outfile=dist/bench-reader.cjs
 *   node dist/bench-reader.cjs
 */
import { execFileSync } from "node:child_process";
import { createHash } from "node:crypto";
import { closeSync, mkdtempSync, openSync, rmSync, statSync, writeSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readPoolTable } from "@/lib/cli/pool/read-pool-table";
import { seededSource } from "@/lib/engine/random/source";
import { canonicalTable } from "@/lib/engine/statistics/canonical-columns";
import { rankBlocks } from "@/lib/engine/statistics/rank-blocks";
import { rankTest } from "@/lib/engine/statistics/rank-test";

const ARMS = Array.from({ length: 12 }, (_, arm) => `grain${Math.floor(arm / 2)}-${arm % 2 ? "1.2" : "1.0"}`);
const BANDS = ["Cfa", "Cfb", "Csa", "Csb", "Dfb"];
const OUTINGS_PER_GROWER = 4;
const BOXES_PER_OUTING = 4;
const MB = 1e6;

/** Writes the table and gives its name. */
function writeTable(folder: string, rows: number, withOptional: boolean): string {
  const path = join(folder, `${rows}-${withOptional}.csv`);
  const file = openSync(path, "w");
  const source = seededSource(`bench ${rows}`);
  writeSync(file, `grower,outing,band,arm,outcome,status${withOptional ? ",box,available" : ""}\n`);
  let text = "";
  for (let row = 0; row < rows; row++) {
    const outing = Math.floor(row / BOXES_PER_OUTING);
    const grower = Math.floor(outing / OUTINGS_PER_GROWER);
    const lost = source.below(100) < 8;
    const cells = [`g${grower}`, `o${outing}`, BANDS[grower % 5], ARMS[source.below(12)]];
    cells.push(lost ? "" : String(source.below(5)), lost ? "lost" : "graded");
    if (withOptional) cells.push(`B${row.toString(36)}`, ARMS.slice(grower % 3).join(" "));
    text += `${cells.join(",")}\n`;
    if (text.length > 1 << 20 || row === rows - 1) {
      writeSync(file, text);
      text = "";
    }
  }
  closeSync(file);
  return path;
}

/** Processor seconds since the last call. */
function stopwatch(): () => number {
  let last = process.cpuUsage();
  return () => {
    const { user, system } = process.cpuUsage(last);
    last = process.cpuUsage();
    return (user + system) / 1e6;
  };
}

/** In a process of its own, as peak memory is the process'. */
function measure(path: string): void {
  const seconds = stopwatch();
  const peakMb = (): number => (process.resourceUsage().maxRSS * 1024) / MB;
  const read = readPoolTable(path);
  if (!read.ok) throw new Error(`The table is refused: ${read.faults.named[0]?.message}`);
  const figures = [seconds(), peakMb()];
  const { table, sha256 } = canonicalTable(read.table, createHash("sha256"));
  figures.push(seconds(), peakMb());
  rankTest(rankBlocks(table.columns), { seed: sha256, permutations: 999 });
  figures.push(seconds(), peakMb());
  console.log(JSON.stringify(figures));
}

function compare(): void {
  const folder = mkdtempSync(join(tmpdir(), "grainlot-bench-"));
  console.log("Processor seconds and peak memory so far: read, canonical order and SHA-256, rank test");
  try {
    for (const rows of [1, 100_000, 1_000_000]) {
      for (const withOptional of [false, true]) {
        const path = writeTable(folder, Math.max(rows, 100), withOptional);
        const out = execFileSync(process.execPath, [process.argv[1]!, path], { encoding: "utf8" });
        const [readS, readMb, hashS, hashMb, rankS, rankMb] = JSON.parse(out).map((x: number) =>
          x.toFixed(2),
        );
        const name = `${Math.max(rows, 100)} rows of ${(statSync(path).size / MB).toFixed(1)} MB`;
        console.log(
          `${name.padEnd(28)} ${readS} s ${readMb} MB   ${hashS} s ${hashMb} MB   ${rankS} s ${rankMb} MB`,
        );
      }
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const given = process.argv[2];
if (given === undefined) compare();
else measure(given);
