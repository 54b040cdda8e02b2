import { basename, resolve } from "node:path";
import { parseArgs } from "node:util";
import { poolTrial } from "@/lib/engine/statistics/pool-trial";
import { type CommandIo, EXIT_OK, EXIT_REFUSED } from "../io";
import { describeFaults } from "../table/faults";
import { jsonReport } from "./json-report";
import { progressLine } from "./progress-line";
import { readPoolTable } from "./read-pool-table";
import { poolRows } from "./table-rows";
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

  --json        the result as JSON
  --level L     of the intervals, between 0.5 and 0.9999; 0.95 if not given
  --seed N      a whole number for the permutations of the rank test with few growers;
                if not given it comes from the data, so that the same data give the same answer
`;

const NOTHING_POOLED = "Nothing was pooled; mend the table and run the command again.";

interface PoolArguments {
  readonly file: string;
  readonly json: boolean;
  readonly level: number;
  readonly seed: string | undefined;
}

/** `grainlot pool`: exit code 0 with the whole answer, or 2 with none and the reasons on stderr. */
export async function runPool(argv: readonly string[], io: CommandIo): Promise<number> {
  const given = readArguments(argv);
  if (!given.ok) {
    io.stderr(`grainlot pool: ${given.message}\n`);
    return EXIT_REFUSED;
  }
  if (given.help) {
    io.stdout(POOL_HELP);
    return EXIT_OK;
  }
  const { file, json, level, seed } = given.arguments;
  const progress = progressLine(io.terminal);
  const read = readPoolTable(resolve(io.directory, file), progress.update);
  progress.end();
  if (!read.ok) {
    io.stderr(describeFaults(file, read.faults, NOTHING_POOLED));
    return EXIT_REFUSED;
  }
  for (const remark of read.remarks) io.stderr(`grainlot pool: ${remark}\n`);
  const result = poolTrial(poolRows(read.table), { level, seed });
  io.stdout(json ? jsonReport(result) : textReport(result, basename(file)));
  return EXIT_OK;
}

type ReadArguments =
  | { readonly ok: true; readonly help: false; readonly arguments: PoolArguments }
  | { readonly ok: true; readonly help: true }
  | { readonly ok: false; readonly message: string };

function readArguments(argv: readonly string[]): ReadArguments {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(argv);
  } catch (error) {
    return refuse(`${(error as Error).message} See grainlot --help.`);
  }
  const { values, positionals } = parsed;
  if (values.help) return { ok: true, help: true };
  const [file, ...more] = positionals;
  if (file === undefined) return refuse("which file? Write grainlot pool FILE.csv.");
  if (more.length > 0) return refuse(`one file at a time; got ${positionals.join(", ")}.`);
  const level = Number(values.level);
  if (!(level >= 0.5 && level <= 0.9999)) {
    return refuse(`--level ${values.level} is not a number between 0.5 and 0.9999; for 95 % write 0.95.`);
  }
  if (values.seed !== undefined && !/^\d{1,15}$/.test(values.seed)) {
    return refuse(`--seed ${values.seed} is not a whole number of at most 15 digits.`);
  }
  return { ok: true, help: false, arguments: { file, json: values.json, level, seed: values.seed } };
}

function parse(argv: readonly string[]) {
  return parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: {
      json: { type: "boolean", default: false },
      level: { type: "string", default: "0.95" },
      seed: { type: "string" },
      help: { type: "boolean", short: "h", default: false },
    },
  });
}

function refuse(message: string): ReadArguments {
  return { ok: false, message };
}
