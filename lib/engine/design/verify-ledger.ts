import type { LedgerEntry, LedgerHead, PublishedHead } from "@/shared/schemas/draw";
import type { LedgerFile, LedgerPlan } from "@/shared/schemas/ledger-file";
import { isSecretHex } from "../random/source";
import { DrawChecks } from "./draw-checks";
import { chainStart, entryHash, type SealedTrial, sealOf } from "./ledger";
import type { LedgerProblem } from "./ledger-problem";
import { planHash } from "./plan";

export interface LedgerFault {
  readonly ok: false;
  readonly problem: LedgerProblem;
  /** The draw where the problem shows, counted from 1 by place in the ledger; null when it is no one draw's. */
  readonly drawNumber: number | null;
}

export type LedgerVerdict =
  | {
      readonly ok: true;
      readonly head: LedgerHead;
      /** Whether every draw was made again from the secret; false while the secret is sealed. */
      readonly replayed: boolean;
    }
  | LedgerFault;

/** A ledger as far as it stands before its first entry. */
export interface LedgerToCheck extends SealedTrial {
  readonly plan: LedgerPlan;
  /** Once opened. Without it the chain is checked but no draw can be replayed. */
  readonly secretHex?: string;
}

export interface LedgerToVerify extends LedgerToCheck {
  /** Parsed by `ledgerEntrySchema`, in order. */
  readonly entries: readonly LedgerEntry[];
  /** The head as published or noted apart from the ledger; the ledger may have grown since. */
  readonly head?: PublishedHead;
}

/** A check that takes one entry after the other, so that a page can breathe between them. */
export interface LedgerChecker {
  /** Checks the next entry. Once something is wrong, the first fault stays the answer; null while all is well. */
  add(entry: LedgerEntry): LedgerFault | null;
  /** The verdict on all entries added. */
  end(head?: PublishedHead): LedgerVerdict;
}

/** Checks a trial's ledger from its start and names the first problem met. */
export function verifyLedger(ledger: LedgerToVerify): LedgerVerdict {
  const checker = ledgerChecker(ledger);
  for (const entry of ledger.entries) if (checker.add(entry) !== null) break;
  return checker.end(ledger.head);
}

/** `verifyLedger` of a ledger file, parsed by `ledgerFileSchema`. */
export function verifyLedgerFile(file: LedgerFile, head?: PublishedHead): LedgerVerdict {
  return verifyLedger({ ...ledgerToCheck(file), entries: file.entries, head });
}

/** What `ledgerChecker` takes from a ledger file. */
export function ledgerToCheck({ trial, plan, planHash, seal, secret }: LedgerFile): LedgerToCheck {
  return { trialId: trial.id, plan, planHash, seal, secretHex: secret ?? undefined };
}

/**
 * A checker for a ledger with that start. It never throws on what the schemas let through.
 * A head that another trial published is named before anything else at the end.
 */
export function ledgerChecker(ledger: LedgerToCheck): LedgerChecker {
  const { seal, secretHex, trialId } = ledger;
  const hashes = [chainStart(ledger)];
  const draws = new DrawChecks(ledger.plan);
  let fault = startFault(ledger);

  function problemOf(entry: LedgerEntry): LedgerProblem | null {
    if (entryHash(entry) !== entry.hash) return "CHANGED_ENTRY";
    if (entry.number !== hashes.length || entry.previousHash !== hashes.at(-1)) return "BROKEN_CHAIN";
    return draws.problemOf(entry, trialId, secretHex);
  }

  return {
    add(entry) {
      if (fault !== null) return fault;
      const problem = problemOf(entry);
      if (problem !== null) fault = { ok: false, problem, drawNumber: hashes.length };
      else hashes.push(entry.hash);
      return fault;
    },
    end(head) {
      if (head !== undefined && head.seal !== seal)
        return { ok: false, problem: "OTHER_TRIAL", drawNumber: null };
      const first = fault ?? (head === undefined ? null : headFault(hashes, head));
      if (first !== null) return first;
      const reached = { draws: hashes.length - 1, lastHash: hashes.at(-1)! };
      return { ok: true, head: reached, replayed: secretHex !== undefined };
    },
  };
}

function startFault({ plan, planHash: published, seal, secretHex }: LedgerToCheck): LedgerFault | null {
  if (secretHex !== undefined && (!isSecretHex(secretHex) || sealOf(secretHex) !== seal)) {
    return { ok: false, problem: "WRONG_SECRET", drawNumber: null };
  }
  return givesHash(plan, published) ? null : { ok: false, problem: "PLAN_CHANGED", drawNumber: null };
}

function givesHash(plan: LedgerPlan, published: string): boolean {
  try {
    return planHash(plan) === published;
  } catch {
    // Text that canonical JSON can't carry (half a surrogate pair) never had a hash.
    return false;
  }
}

/** @param hashes where the chain starts, and then one hash per draw. */
function headFault(hashes: readonly string[], head: LedgerHead): LedgerFault | null {
  if (hashes.length <= head.draws) return { ok: false, problem: "TRUNCATED", drawNumber: hashes.length };
  if (hashes[head.draws] === head.lastHash) return null;
  return { ok: false, problem: "OTHER_HEAD", drawNumber: head.draws === 0 ? null : head.draws };
}
