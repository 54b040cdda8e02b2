import {
  LEDGER_BYTES_AT_MOST,
  type LedgerFileRefusal,
  readLedgerFile,
} from "@/lib/engine/design/read-ledger-file";
import { type LedgerVerdict, ledgerChecker, ledgerToCheck } from "@/lib/engine/design/verify-ledger";
import type { PublishedHead } from "@/shared/schemas/draw";

/** What the page asks of its worker: which ledger, and what was published for the trial of the page. */
export interface CheckRequest {
  readonly from: { readonly url: string } | { readonly file: Blob };
  readonly trialId: string;
  readonly published: PublishedHead;
}

export type CheckRefusal = LedgerFileRefusal | "TOO_LARGE" | "UNREACHABLE";

export type CheckOutcome =
  | { readonly kind: "verdict"; readonly verdict: LedgerVerdict; readonly draws: number }
  | { readonly kind: "other-trial"; readonly title: string }
  | {
      readonly kind: "refused";
      readonly reason: CheckRefusal;
      readonly at: string | null;
    };

export type CheckMessage =
  | { readonly kind: "progress"; readonly checked: number; readonly draws: number }
  | { readonly kind: "outcome"; readonly outcome: CheckOutcome }
  | { readonly kind: "broken" };

/** Draws between two reports of progress. */
const REPORT_EVERY = 100;

/** Fetches or opens the ledger and makes every draw again; `report` hears how far it has come. */
export async function checkLedger(
  { from, trialId, published }: CheckRequest,
  report: (checked: number, draws: number) => void,
): Promise<CheckOutcome> {
  const got = "url" in from ? await fetched(from.url) : from.file;
  if (got === null) return { kind: "refused", reason: "UNREACHABLE", at: null };
  if (got.size > LEDGER_BYTES_AT_MOST) return { kind: "refused", reason: "TOO_LARGE", at: null };
  const read = readLedgerFile(await got.text());
  if (!read.ok) return { kind: "refused", reason: read.reason, at: read.at };
  const { ledger } = read;
  if (ledger.trial.id !== trialId) return { kind: "other-trial", title: ledger.trial.title };
  const checker = ledgerChecker(ledgerToCheck(ledger));
  const draws = ledger.entries.length;
  for (const [index, entry] of ledger.entries.entries()) {
    if (index % REPORT_EVERY === 0) report(index, draws);
    if (checker.add(entry) !== null) break;
  }
  return { kind: "verdict", verdict: checker.end(published), draws };
}

async function fetched(url: string): Promise<Blob | null> {
  try {
    const answer = await fetch(url);
    return answer.ok ? await answer.blob() : null;
  } catch {
    return null;
  }
}
