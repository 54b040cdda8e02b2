import { resolve } from "node:path";
import { parseArgs } from "node:util";

/** The files a command names, as absolute paths. */
export interface Paths {
  readonly design: string;
  readonly outings: string;
  readonly ledger: string;
  readonly secret: string;
  readonly secretIsNew: boolean;
}

export type ReadArguments =
  | {
      readonly ok: true;
      readonly help: false;
      /** As the user wrote them. */
      readonly names: { readonly design: string; readonly outings: string; readonly ledger: string };
      readonly paths: Paths;
      readonly json: boolean;
    }
  | { readonly ok: true; readonly help: true }
  | { readonly ok: false; readonly message: string };

export function readArguments(argv: readonly string[], directory: string): ReadArguments {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(argv);
  } catch (error) {
    return { ok: false, message: `${(error as Error).message} See grainlot draw --help.` };
  }
  const { values, positionals } = parsed;
  if (values.help) return { ok: true, help: true };
  const [design, outings, ...more] = positionals;
  const { ledger, secret, "new-secret": newSecret } = values;
  if (design === undefined || outings === undefined || more.length > 0) {
    return {
      ok: false,
      message: "give two files: grainlot draw DESIGN.json OUTINGS.csv --ledger LEDGER.json.",
    };
  }
  if (ledger === undefined) return { ok: false, message: "name the ledger with --ledger LEDGER.json." };
  const secretName = newSecret ?? secret;
  if (secretName === undefined || (newSecret !== undefined && secret !== undefined)) {
    return {
      ok: false,
      message: "give --new-secret FILE to begin a ledger or --secret FILE to go on with one.",
    };
  }
  const path = (name: string) => resolve(directory, name);
  const paths: Paths = {
    design: path(design),
    outings: path(outings),
    ledger: path(ledger),
    secret: path(secretName),
    secretIsNew: newSecret !== undefined,
  };
  return { ok: true, help: false, names: { design, outings, ledger }, paths, json: values.json === true };
}

function parse(argv: readonly string[]) {
  return parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: {
      ledger: { type: "string" },
      secret: { type: "string" },
      "new-secret": { type: "string" },
      json: { type: "boolean" },
      help: { type: "boolean", short: "h" },
    },
  });
}
