import { version } from "../../package.json";
import { DRAW_HELP, runDraw } from "./draw/draw-command";
import { type CommandIo, EXIT_OK, EXIT_REFUSED } from "./io";
import { PLAN_HELP, runPlan } from "./plan/plan-command";
import { POOL_HELP, runPool } from "./pool/pool-command";
import { runVerify, VERIFY_HELP } from "./verify/verify-command";

const HELP = `Grainlot: one fair experiment of many growers, from the draw to the answer.

Usage:
  grainlot plan --arms N --boxes K --growers N --difference D [--sets S] [--json] …
  grainlot pool FILE.csv [--json] [--random outing,grower,grower-arm] [--level 0.95] [--sensitivity] [--reference ARM]
                [--margin X] [--seed N] | --schema
  grainlot draw DESIGN.json OUTINGS.csv --ledger LEDGER.json --new-secret FILE|--secret FILE [--json]
  grainlot verify LEDGER.json [--head SEAL,DRAWS,LAST_HASH|FILE] [--secret FILE] [--json] | --schema
  grainlot --help | --version

${PLAN_HELP}
${POOL_HELP}
${DRAW_HELP}
${VERIFY_HELP}`;

/**
 * Runs one command line (without node and script) and gives its exit code: 0, 1 for what was checked and does not
 * stand, or 2 when it was refused.
 */
export async function run(argv: readonly string[], io: CommandIo): Promise<number> {
  const [command, ...rest] = argv;
  switch (command) {
    case "plan":
      return runPlan(rest, io);
    case "pool":
      return runPool(rest, io);
    case "draw":
      return runDraw(rest, io);
    case "verify":
      return runVerify(rest, io);
    case "--version":
    case "-v":
      io.stdout(`${version}\n`);
      return EXIT_OK;
    case "--help":
    case "-h":
    case "help":
      io.stdout(HELP);
      return EXIT_OK;
    case undefined:
      io.stderr(HELP);
      return EXIT_REFUSED;
    default:
      io.stderr(`grainlot: there is no command "${command}". See grainlot --help.\n`);
      return EXIT_REFUSED;
  }
}
