import { database, type Transaction } from "@/lib/data/client";
import { findDrawLink, ledgerPageOf } from "@/lib/data/draws";
import { LEDGER_END, ledgerLines, ledgerStart } from "@/lib/engine/design/write-ledger-file";
import { type Refusal, refuse } from "@/lib/errors/result";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import type { TrialView } from "./read-trials";

const DRAWS_PER_READ = 500;
const FULL_HASH = /^[0-9a-f]{64}$/;
const SHORT_HASH = /^([0-9a-f]{8})([0-9a-f]{8})$/;

export type ReceiptStanding =
  | {
      readonly ok: true;
      readonly number: number;
      readonly algorithm: string;
      readonly hash: string;
      /** Whether the chain leads from this draw to the hash published as the last. */
      readonly stands: boolean;
    }
  | Refusal<"NOT_A_RECEIPT" | "NO_SUCH_DRAW">;

/**
 * Which draw of the trial carries the hash on a receipt, given whole or as `xxxxxxxx-xxxxxxxx`, its first and last
 * 8 hex digits; letter case, spaces and dashes don't matter.
 */
export async function readReceipt(
  trialId: string,
  typed: string,
  tx: Transaction = database(),
): Promise<ReceiptStanding> {
  const digits = typed.toLowerCase().replace(/[\s-]/g, "");
  const [, start, end] = SHORT_HASH.exec(digits) ?? [];
  if (!FULL_HASH.test(digits) && !start) return refuse("NOT_A_RECEIPT");
  const link = await findDrawLink(tx, trialId, { hashStart: start ?? digits, hashEnd: end ?? "" });
  if (!link) return refuse("NO_SUCH_DRAW");
  const { number, algorithm, hash, leadsToHead } = link;
  return { ok: true, number, algorithm, hash, stands: leadsToHead };
}

/**
 * A closed trial's ledger in the form of `ledgerFileSchema`, in pieces of text that end with whole lines, one draw a
 * line. While a trial is open its ledger is refused: it tells the recipes of everyone's boxes, which stay hidden
 * until the close.
 */
export function ledgerText(
  trial: Pick<TrialView, "id" | "title" | "status" | "plan" | "planHash" | "seal" | "openedSecret">,
  tx: Transaction = database(),
): { readonly ok: true; readonly pieces: AsyncGenerator<string> } | Refusal<"LEDGER_SEALED"> {
  if (trial.status !== "closed") return refuse("LEDGER_SEALED");
  const { id, title, plan, planHash, seal, openedSecret } = trial;
  const head: Omit<LedgerFile, "entries"> = {
    form: "grainlot-ledger/1",
    trial: { id, title },
    plan,
    planHash,
    seal,
    secret: openedSecret,
  };
  return { ok: true, pieces: ledgerPieces(head, id, tx) };
}

async function* ledgerPieces(
  head: Omit<LedgerFile, "entries">,
  trialId: string,
  tx: Transaction,
): AsyncGenerator<string> {
  yield ledgerStart(head);
  for (let after = 0; ; ) {
    const entries = await ledgerPageOf(tx, trialId, { after, limit: DRAWS_PER_READ });
    yield ledgerLines(entries, after === 0);
    if (entries.length < DRAWS_PER_READ) break;
    after = entries.at(-1)!.number;
  }
  yield LEDGER_END;
}
