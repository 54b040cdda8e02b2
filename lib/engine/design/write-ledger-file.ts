import type { LedgerEntry } from "@/shared/schemas/draw";
import type { LedgerFile } from "@/shared/schemas/ledger-file";

/** A ledger file before its entries. `ledgerLines` and `LEDGER_END` make it whole, so that it can be streamed. */
export function ledgerStart(head: Omit<LedgerFile, "entries">): string {
  return `${JSON.stringify(head).slice(0, -1)},"entries":[\n`;
}

/** One line per entry; `first` when none stand before them. */
export function ledgerLines(entries: readonly LedgerEntry[], first: boolean): string {
  const lines = entries.map((entry) => JSON.stringify(entry)).join(",\n");
  return first || lines === "" ? lines : `,\n${lines}`;
}

export const LEDGER_END = "\n]}\n";
