import { resolve } from "node:path";
import { parseArgs } from "node:util";
import { type LedgerVerdict, verifyLedgerFile } from "@/lib/engine/design/verify-ledger";
import type { PublishedHead } from "@/shared/schemas/draw";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import { type CommandIo, EXIT_MISMATCH, EXIT_OK, EXIT_REFUSED } from "../io";
import { readSecret } from "../secret-file";
import { readHead } from "./head";
import { ledgerJsonSchema } from "./ledger-schema";
import { problemWords } from "./problem-words";
import { type ReadLedger, readLedger } from "./read-ledger";
import { verifyJson, verifyReport } from "./report";

export const VERIFY_HELP = `verify checks a trial's ledger: the secret against the seal, the plan against its hash, the chain
of hashes, and every draw, made again from the secret. It names the first that doesn't match.

  --head HEAD    the head as published apart from the ledger, "SEAL,DRAWS,LAST_HASH" or a file that
                 holds it; without it a ledger that was made up as a whole would pass
  --secret FILE  the secret, where the ledger does not carry it yet
  --json         the answer as JSON
  --schema       prints the JSON Schema of ledgers instead

Exit codes: 0 it stands, 1 it doesn't, 2 it could not be checked.
`;

/** `grainlot verify`: the answer on stdout with 0 or 1, or 2 with the reason on stderr. */
export function runVerify(argv: readonly string[], io: CommandIo): number {
  const given = readArguments(argv);
  if (!given.ok) return refuse(io, given.message);
  const { values, file } = given;
  if (values.help) {
    io.stdout(VERIFY_HELP);
    return EXIT_OK;
  }
  if (values.schema) {
    io.stdout(`${JSON.stringify(ledgerJsonSchema(), null, 2)}\n`);
    return EXIT_OK;
  }
  if (file === undefined) return refuse(io, "which ledger? Write grainlot verify LEDGER.json.");
  const path = (name: string) => resolve(io.directory, name);
  const read = readSealed(path(file), values.secret === undefined ? undefined : path(values.secret));
  if (!read.ok) return refuse(io, `${file}: ${read.message}`);
  const head = values.head === undefined ? undefined : readHead(values.head, path);
  if (head && !head.ok) return refuse(io, head.message);
  return answer(io, { file, ledger: read.ledger, head: head?.head, json: values.json === true });
}

interface Question {
  readonly file: string;
  readonly ledger: LedgerFile;
  readonly head: PublishedHead | undefined;
  readonly json: boolean;
}

function answer(io: CommandIo, { file, ledger, head, json }: Question): number {
  const verdict = verifyLedgerFile(ledger, head);
  const reason = cantBeChecked(verdict);
  if (reason) return refuse(io, `${file}: ${reason}`);
  io.stdout(json ? verifyJson(ledger, verdict, head) : verifyReport(file, ledger, verdict, head));
  return verdict.ok ? EXIT_OK : EXIT_MISMATCH;
}

/** Says what keeps the ledger from being checked; nothing is held against it. */
function cantBeChecked(verdict: LedgerVerdict): string | null {
  if (verdict.ok) return null;
  const { problem, drawNumber } = verdict;
  if (problem === "OTHER_TRIAL") return problemWords[problem];
  return problem === "UNKNOWN_ALGORITHM" ? `draw ${drawNumber}: ${problemWords[problem]}` : null;
}

function readSealed(path: string, secretPath: string | undefined): ReadLedger {
  const read = readLedger(path);
  if (!read.ok || secretPath === undefined) return read;
  const secret = readSecret(secretPath);
  if (!secret.ok) return { ok: false, message: `the file named by --secret: ${secret.message}` };
  return { ok: true, ledger: { ...read.ledger, secret: secret.secretHex } };
}

function readArguments(argv: readonly string[]) {
  try {
    const { values, positionals } = parseArgs({
      args: [...argv],
      allowPositionals: true,
      options: {
        head: { type: "string" },
        secret: { type: "string" },
        json: { type: "boolean" },
        schema: { type: "boolean" },
        help: { type: "boolean", short: "h" },
      },
    });
    if (positionals.length > 1) {
      return { ok: false, message: `one ledger at a time; got ${positionals.join(", ")}.` } as const;
    }
    return { ok: true, values, file: positionals[0] } as const;
  } catch (error) {
    return { ok: false, message: `${(error as Error).message} See grainlot verify --help.` } as const;
  }
}

function refuse(io: CommandIo, message: string): number {
  io.stderr(`grainlot verify: ${message}\n`);
  return EXIT_REFUSED;
}
