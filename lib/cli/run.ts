import { version } from "../../package.json";
import { type CommandIo, EXIT_OK, EXIT_REFUSED } from "./io";
import { POOL_HELP, runPool } from "./pool/pool-command";

const HELP = `Grainlot: pool the boxes of many growers into one answer.

Usage:
  grainlot pool FILE.csv [--json] [--level 0.95] [--seed N]
  grainlot --help | --version

${POOL_HELP}`;

/** Runs one command line (without node and script) and gives its exit code: 0, or 2 when it was refused. */
export async function run(argv: readonly string[], io: CommandIo): Promise<number> {
  const [command, ...rest] = argv;
  switch (command) {
    case "pool":
      return runPool(rest, io);
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
