import { createHash } from "node:crypto";
import { basename, resolve } from "node:path";
import { poolColumns } from "@/lib/engine/statistics/pool-columns";
import { jsonReport } from "@/lib/engine/statistics/pool-report";
import type { PoolTable } from "@/lib/engine/statistics/pool-table";
import { poolReportJsonSchema } from "@/shared/schemas/pool-report";
import { type CommandIo, EXIT_OK, EXIT_REFUSED } from "../io";
import { describeFaults, shown } from "../table/faults";
import { type PoolArguments, readArguments } from "./arguments";
import { progressLine } from "./progress-line";
import { readPoolTable } from "./read-pool-table";
import { textReport } from "./text-report";

export const POOL_HELP = `pool reads a table with a header line, columns separated by commas, semicolons or tabs, UTF-8:
  grower   who set the boxes out; the unit every interval and test counts
  outing   one grower, one place, one day: the block
  band     climate group
  arm      recipe
  outcome  a number such as growth 0-4; empty when it was not measured
  status   graded or lost
  box      optional: the box's code, once per file
  available  optional: the arms the grower could have cooked in the outing, a space between
  region   optional
Where semicolons separate, outcomes may have a decimal comma. Other columns are ignored and named. The table is your own: nothing is withheld.

  --json           the result as JSON; its form: grainlot pool --schema
  --random TERMS   random terms of the model, commas between; outing,grower,grower-arm if not given, or none
  --level L        of the intervals, between 0.5 and 0.9999; 0.95 if not given
  --sensitivity    fits the model again under other assumptions, and says what single growers move
  --reference ARM  compares every arm with this one
  --margin X       a difference smaller than this counts as none: verdicts say equivalent or non-inferior too
  --seed N         a whole number for the quasi-random points and permutations; if not given it comes from the data,
                   so that the same data give the same answer
`;

const NOTHING_POOLED = "Nothing was pooled; mend the table and run the command again.";

/** `grainlot pool`: exit code 0 with the whole answer, or 2 with none and the reasons on stderr. */
export async function runPool(argv: readonly string[], io: CommandIo): Promise<number> {
  const given = readArguments(argv);
  if (!given.ok) return refused(io, given.message);
  if (given.wanted === "help") {
    io.stdout(POOL_HELP);
    return EXIT_OK;
  }
  if (given.wanted === "schema") {
    io.stdout(`${JSON.stringify(poolReportJsonSchema(), null, 2)}\n`);
    return EXIT_OK;
  }
  const { file, json } = given.arguments;
  const progress = progressLine(io.terminal);
  const read = readPoolTable(resolve(io.directory, file), progress.update);
  progress.end();
  if (!read.ok) {
    io.stderr(describeFaults(file, read.faults, NOTHING_POOLED));
    return EXIT_REFUSED;
  }
  const unknown = unknownReference(read.table, given.arguments);
  if (unknown) return refused(io, unknown);
  for (const remark of read.remarks) io.stderr(`grainlot pool: ${remark}\n`);
  progress.say(`pooling ${read.table.columns.n} boxes`);
  const { result } = poolColumns(read.table, undefined, optionsOf(given.arguments));
  progress.end();
  io.stdout(json ? jsonReport(result) : textReport(result, basename(file)));
  return EXIT_OK;
}

function optionsOf({ level, random, sensitivity, reference, margin, seed }: PoolArguments) {
  const newHash = () => createHash("sha256");
  return { level, random, sensitivity, byGrower: sensitivity, reference, margin, seed, newHash };
}

function unknownReference({ columns }: PoolTable, { reference }: PoolArguments): string | null {
  const arms = columns.labels.arm;
  if (reference === null || arms.includes(reference)) return null;
  const some = [...arms].sort().slice(0, 10).map(shown).join(", ");
  return `--reference ${reference} is no arm of the table. Its arms are ${some}${arms.length > 10 ? ", …" : ""}.`;
}

function refused(io: CommandIo, message: string): number {
  io.stderr(`grainlot pool: ${message}\n`);
  return EXIT_REFUSED;
}
