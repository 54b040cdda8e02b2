import { type LedgerEntry, ledgerEntrySchema } from "@/shared/schemas/draw";
import { type LedgerFile, ledgerFileSchema } from "@/shared/schemas/ledger-file";

/** What a program should read at most; a ledger of 10,000 draws among 24 arms takes about 25 MB. */
export const LEDGER_BYTES_AT_MOST = 40 * 1024 * 1024;

export type LedgerFileRefusal =
  | "NOT_JSON"
  /** A ledger, but of a form that this version does not know. */
  | "OTHER_FORM"
  | "NOT_A_LEDGER";

export type LedgerFileReading =
  | { readonly ok: true; readonly ledger: LedgerFile }
  | {
      readonly ok: false;
      readonly reason: LedgerFileRefusal;
      /** The first place that does not fit, such as `entries[3].inputs.boxes`; null where the whole is meant. */
      readonly at: string | null;
    };

type Path = readonly PropertyKey[];

/** Takes a ledger from text that may be anything. Whether the ledger stands is for `verifyLedgerFile`. */
export function readLedgerFile(text: string): LedgerFileReading {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return { ok: false, reason: "NOT_JSON", at: null };
  }
  if (typeof value !== "object" || value === null || Array.isArray(value)) return notALedger([]);
  const { entries: given, ...rest } = value as { entries?: unknown };
  const head = ledgerFileSchema.safeParse({ ...rest, entries: [] });
  if (!head.success) {
    const paths = head.error.issues.map((issue) => issue.path);
    if (paths.some(([member]) => member === "form") && isLedgerForm(value)) {
      return { ok: false, reason: "OTHER_FORM", at: "form" };
    }
    return notALedger(paths[0] ?? []);
  }
  if (!Array.isArray(given)) return notALedger(["entries"]);
  const entries: LedgerEntry[] = [];
  // One by one up to the first fault: a list of millions of other things must not give millions of faults.
  for (const [index, entry] of given.entries()) {
    const parsed = ledgerEntrySchema.safeParse(entry);
    if (!parsed.success) return notALedger(["entries", index, ...(parsed.error.issues[0]?.path ?? [])]);
    entries.push(parsed.data);
  }
  return { ok: true, ledger: { ...head.data, entries } };
}

function isLedgerForm(value: object): boolean {
  const { form } = value as { form?: unknown };
  return typeof form === "string" && form.startsWith("grainlot-ledger/");
}

function notALedger(path: Path): LedgerFileReading {
  const at = path
    .map((key) => (typeof key === "number" ? `[${key}]` : `.${String(key)}`))
    .join("")
    .replace(/^\./, "");
  return { ok: false, reason: "NOT_A_LEDGER", at: at === "" ? null : at };
}
