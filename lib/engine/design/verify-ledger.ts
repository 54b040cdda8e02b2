import type { DrawInputs, LedgerEntry, LedgerHead, Placement } from "@/shared/schemas/draw";
import { drawSource, isSecretHex } from "../random/source";
import { type DrawRule, drawRule } from "./draw";
import { chainStart, entryHash, type SealedTrial, sealOf } from "./ledger";

export type LedgerProblem =
  /** The secret is not the one whose seal was published. */
  | "WRONG_SECRET"
  /** The entry's content no longer gives its hash. */
  | "CHANGED_ENTRY"
  /** The entry does not follow the one before: one dropped, swapped or slipped in, or another trial, plan or seal. */
  | "BROKEN_CHAIN"
  /** The outing has been drawn for before. */
  | "SECOND_DRAW_FOR_OUTING"
  /** The trial's arms, their order or their grains are not those of the first draw. */
  | "ARMS_CHANGED"
  /** The entry's `drawnBefore` counts are not those of the earlier entries. */
  | "COUNTS_DONT_FOLLOW"
  /** This version of Grainlot does not know the entry's rule. */
  | "UNKNOWN_ALGORITHM"
  /** Drawing again from the secret gives another result. */
  | "NOT_AS_DRAWN"
  /** The ledger has fewer draws than were published. */
  | "TRUNCATED"
  /** The ledger reaches the published number of draws with another hash: the whole chain was rewritten. */
  | "OTHER_HEAD";

export interface LedgerToVerify extends SealedTrial {
  /** Parsed by `ledgerEntrySchema`, in order. */
  readonly entries: readonly LedgerEntry[];
  /** The head as published or noted apart from the ledger; the ledger may have grown since. */
  readonly head?: LedgerHead;
  /** Once opened. Without it the chain is checked but no draw can be replayed. */
  readonly secretHex?: string;
}

export type LedgerVerdict =
  | {
      readonly ok: true;
      readonly head: LedgerHead;
      /** Whether every draw was made again from the secret; false while the secret is sealed. */
      readonly replayed: boolean;
    }
  | {
      readonly ok: false;
      readonly problem: LedgerProblem;
      /** The draw where the problem shows, counted from 1 by place in the ledger; null when it is no one draw's. */
      readonly drawNumber: number | null;
    };

/** Checks a trial's ledger from its start and names the first problem met. */
export function verifyLedger(ledger: LedgerToVerify): LedgerVerdict {
  const { entries, head, secretHex } = ledger;
  if (secretHex !== undefined && (!isSecretHex(secretHex) || sealOf(secretHex) !== ledger.seal)) {
    return { ok: false, problem: "WRONG_SECRET", drawNumber: null };
  }
  const start = chainStart(ledger);
  const earlier = new EarlierDraws();
  let lastHash = start;
  for (const [index, entry] of entries.entries()) {
    const drawNumber = index + 1;
    const problem =
      chainProblem(entry, drawNumber, lastHash) ??
      earlier.problemOf(entry.inputs) ??
      replayProblem(entry, ledger.trialId, secretHex);
    if (problem !== null) return { ok: false, problem, drawNumber };
    earlier.add(entry);
    lastHash = entry.hash;
  }
  if (head !== undefined) {
    if (entries.length < head.draws)
      return { ok: false, problem: "TRUNCATED", drawNumber: entries.length + 1 };
    const hashAtHead = head.draws === 0 ? start : entries[head.draws - 1]?.hash;
    if (hashAtHead !== head.lastHash) {
      return { ok: false, problem: "OTHER_HEAD", drawNumber: head.draws === 0 ? null : head.draws };
    }
  }
  return { ok: true, head: { draws: entries.length, lastHash }, replayed: secretHex !== undefined };
}

function chainProblem(entry: LedgerEntry, drawNumber: number, lastHash: string): LedgerProblem | null {
  if (entryHash(entry) !== entry.hash) return "CHANGED_ENTRY";
  if (entry.number !== drawNumber || entry.previousHash !== lastHash) return "BROKEN_CHAIN";
  return null;
}

function replayProblem(
  entry: LedgerEntry,
  trialId: string,
  secretHex: string | undefined,
): LedgerProblem | null {
  const rule = drawRule(entry.algorithm);
  if (rule === undefined) return "UNKNOWN_ALGORITHM";
  if (secretHex === undefined) return null;
  return samePlacements(entry.result, replay(rule, entry, trialId, secretHex)) ? null : "NOT_AS_DRAWN";
}

/** The entry's result made again; no placements where the rule refuses such inputs. */
function replay(
  rule: DrawRule,
  entry: LedgerEntry,
  trialId: string,
  secretHex: string,
): readonly Placement[] {
  const drawn = rule(entry.inputs, drawSource({ secretHex, trialId, drawNumber: entry.number }));
  return drawn.ok ? drawn.placements : [];
}

function samePlacements(stated: readonly Placement[], drawn: readonly Placement[]): boolean {
  return (
    stated.length === drawn.length &&
    stated.every(({ position, arm }, i) => position === drawn[i]?.position && arm === drawn[i]?.arm)
  );
}

/** What the entries read so far say about the next one's inputs. */
class EarlierDraws {
  private readonly outings = new Set<string>();
  private readonly boxesByGroup = new Map<string, Map<string, number>>();
  private arms: DrawInputs["arms"] | null = null;

  problemOf(inputs: DrawInputs): LedgerProblem | null {
    if (this.outings.has(inputs.outingId)) return "SECOND_DRAW_FOR_OUTING";
    if (this.arms !== null && !sameArms(this.arms, inputs.arms)) return "ARMS_CHANGED";
    const boxesByArm = this.boxesByGroup.get(inputs.climateGroup);
    const follow = inputs.arms.every((arm) => arm.drawnBefore === (boxesByArm?.get(arm.code) ?? 0));
    return follow ? null : "COUNTS_DONT_FOLLOW";
  }

  add({ inputs, result }: LedgerEntry): void {
    this.outings.add(inputs.outingId);
    this.arms ??= inputs.arms;
    const boxesByArm = this.boxesByGroup.get(inputs.climateGroup) ?? new Map<string, number>();
    for (const { arm } of result) boxesByArm.set(arm, (boxesByArm.get(arm) ?? 0) + 1);
    this.boxesByGroup.set(inputs.climateGroup, boxesByArm);
  }
}

function sameArms(first: DrawInputs["arms"], later: DrawInputs["arms"]): boolean {
  return (
    first.length === later.length &&
    first.every(({ code, grain }, i) => code === later[i]?.code && grain === later[i]?.grain)
  );
}
