import { parseArgs } from "node:util";
import { RANDOM_TERMS, type RandomTerm } from "@/lib/engine/statistics/mixed/types";

export interface PoolArguments {
  readonly file: string;
  readonly json: boolean;
  readonly level: number;
  readonly random: readonly RandomTerm[];
  readonly sensitivity: boolean;
  readonly reference: string | null;
  readonly margin: number | null;
  /** Undefined: from the data. */
  readonly seed: string | undefined;
}

export type ReadArguments =
  | { readonly ok: true; readonly wanted: "help" }
  | { readonly ok: true; readonly wanted: "schema" }
  | { readonly ok: true; readonly wanted: "pool"; readonly arguments: PoolArguments }
  | { readonly ok: false; readonly message: string };

const TERM_OF_WORD: ReadonlyMap<string, RandomTerm> = new Map([
  ["outing", "outing"],
  ["grower", "grower"],
  ["grower-arm", "growerArm"],
]);

/** What `grainlot pool` is asked, or what is wrong with the asking and what to write instead. */
export function readArguments(argv: readonly string[]): ReadArguments {
  let parsed: ReturnType<typeof parse>;
  try {
    parsed = parse(argv);
  } catch (error) {
    return refuse(`${(error as Error).message} See grainlot --help.`);
  }
  const { values, positionals } = parsed;
  if (values.help) return { ok: true, wanted: "help" };
  if (values.schema) return { ok: true, wanted: "schema" };
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
  const margin = values.margin === undefined ? null : Number(values.margin);
  if (margin !== null && !(margin > 0 && Number.isFinite(margin))) {
    return refuse(`--margin ${values.margin} is not a number above 0, in the outcome's unit; write 0.5.`);
  }
  const random = randomTerms(values.random);
  if (!random) {
    return refuse(
      `--random ${values.random} is not a list of outing, grower and grower-arm with commas between, or none.`,
    );
  }
  const { json, sensitivity, reference = null, seed } = values;
  return {
    ok: true,
    wanted: "pool",
    arguments: { file, json, level, random, sensitivity, reference, margin, seed },
  };
}

function randomTerms(text: string): RandomTerm[] | null {
  if (text === "none") return [];
  const terms = text.split(",").map((word) => TERM_OF_WORD.get(word.trim()));
  if (terms.includes(undefined)) return null;
  return RANDOM_TERMS.filter((term) => terms.includes(term));
}

function parse(argv: readonly string[]) {
  return parseArgs({
    args: [...argv],
    allowPositionals: true,
    options: {
      json: { type: "boolean", default: false },
      random: { type: "string", default: "outing,grower,grower-arm" },
      level: { type: "string", default: "0.95" },
      sensitivity: { type: "boolean", default: false },
      reference: { type: "string" },
      margin: { type: "string" },
      seed: { type: "string" },
      schema: { type: "boolean", default: false },
      help: { type: "boolean", short: "h", default: false },
    },
  });
}

function refuse(message: string): ReadArguments {
  return { ok: false, message };
}
