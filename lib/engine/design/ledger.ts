import type { DrawInputs, DrawReceipt, LedgerEntry } from "@/shared/schemas/draw";
import {
  bytesToHex,
  canonicalHash,
  hexToBytes,
  hmacSha256,
  sha256HexOfBytes,
  utf8ToBytes,
} from "../random/hash";
import { drawSource, isSecretHex } from "../random/source";
import type { DrawDesign, DrawHistory, DrawRefusal } from "./draw";
import { DRAW_ALGORITHM, drawAllocation } from "./rules";

/** What a trial publishes when it opens; all hashes are 64 lower-case hex digits. */
export interface SealedTrial {
  readonly trialId: string;
  /** `planHash` of the frozen plan. */
  readonly planHash: string;
  /** `sealOf` the secret. */
  readonly seal: string;
}

/** The seal: SHA-256 of the secret's 32 bytes. Throws when the secret is not 64 lower-case hex digits. */
export function sealOf(secretHex: string): string {
  if (!isSecretHex(secretHex)) {
    throw new RangeError("A trial's secret is 64 lower-case hex digits (32 bytes).");
  }
  return sha256HexOfBytes(hexToBytes(secretHex));
}

/**
 * Where a trial's chain starts: the `previousHash` of draw 1 and the head of a ledger without draws. It is the
 * `canonicalHash` of `{ planHash, seal, trialId }`, so that no chain fits another trial, plan or secret.
 */
export function chainStart({ trialId, planHash, seal }: SealedTrial): string {
  return canonicalHash({ trialId, planHash, seal });
}

/** The hash an entry must carry: `canonicalHash` of all its other members. */
export function entryHash(entry: Omit<LedgerEntry, "hash">): string {
  const { number, algorithm, inputs, result, fetchAfterDays, previousHash } = entry;
  return canonicalHash({ number, algorithm, inputs, result, fetchAfterDays, previousHash });
}

/**
 * HMAC-SHA-256 of the instant (UTF-8, ISO 8601 in UTC as `Date.toISOString` prints it) under a private salt
 * (hex, 16 bytes or more): whoever is shown time and salt can check the entry, nobody can guess the time from it.
 */
export function timeHashOf(saltHex: string, instantUtc: string): string {
  return bytesToHex(hmacSha256(hexToBytes(saltHex), utf8ToBytes(instantUtc)));
}

/**
 * Makes the trial's next draw and chains it to the one before.
 * @param design `designOf` the trial's plan.
 * @param previous the trial's last entry, or null before its first draw.
 * @param inputs parsed by `drawInputsSchema`; their `drawnBefore` must follow from the entries so far.
 * @param history what the entries so far say to these inputs, as `EarlierDraws` gathers it.
 * Throws when the secret is not the one behind the seal, or when a return comes without what it returns.
 */
export function appendDraw(
  trial: SealedTrial,
  design: DrawDesign,
  previous: LedgerEntry | null,
  secretHex: string,
  inputs: DrawInputs,
  history: DrawHistory,
): { readonly ok: true; readonly entry: LedgerEntry } | DrawRefusal {
  if (sealOf(secretHex) !== trial.seal) {
    throw new RangeError(
      `This is not the secret behind the seal of trial ${trial.trialId}; load the trial's own.`,
    );
  }
  if ((inputs.returns === undefined) !== (history.returned === null)) {
    throw new RangeError(
      "A draw that returns an allocation needs it in its history, and no other draw has one.",
    );
  }
  const number = previous === null ? 1 : previous.number + 1;
  const random = drawSource({ secretHex, trialId: trial.trialId, drawNumber: number });
  const drawn = drawAllocation(inputs, random, history, design);
  if (!drawn.ok) return drawn;
  const content = {
    number,
    algorithm: DRAW_ALGORITHM,
    inputs,
    result: drawn.placements,
    ...(drawn.fetchAfterDays === undefined ? {} : { fetchAfterDays: drawn.fetchAfterDays }),
    previousHash: previous === null ? chainStart(trial) : previous.hash,
  };
  return { ok: true, entry: { ...content, hash: entryHash(content) } };
}

/** What the grower of this draw keeps. */
export function receiptOf(trial: SealedTrial, entry: LedgerEntry): DrawReceipt {
  const { number, algorithm, hash, previousHash } = entry;
  const shortHash = `${hash.slice(0, 8)}-${hash.slice(-8)}`;
  return { trialId: trial.trialId, number, algorithm, hash, previousHash, seal: trial.seal, shortHash };
}
