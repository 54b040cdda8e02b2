import { LEDGER_BYTES_AT_MOST, readLedgerFile } from "@/lib/engine/design/read-ledger-file";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import { readTextFile } from "../text-file";
import { refusalWords } from "./problem-words";

export type ReadLedger =
  | { readonly ok: true; readonly ledger: LedgerFile }
  | { readonly ok: false; readonly message: string };

export function readLedger(path: string): ReadLedger {
  const file = readTextFile(path, LEDGER_BYTES_AT_MOST);
  if (!file.ok) return file;
  const read = readLedgerFile(file.text);
  if (read.ok) return read;
  const words = refusalWords[read.reason];
  return { ok: false, message: read.at === null ? words : `${words} The first place: ${read.at}.` };
}
