import type { LedgerEntry, LedgerHead, PublishedHead } from "@/shared/schemas/draw";
import type { LedgerFile, LedgerPlan } from "@/shared/schemas/ledger-file";
import { drawSource, isSecretHex } from "../random/source";
import { cookableArms, type DrawDesign, designOf } from "./draw";
import { EarlierDraws } from "./history";
import { chainStart, entryHash, type SealedTrial, sealOf } from "./ledger";
import { planHash } from "./plan";
import { drawRule, generationOf } from "./rules";

export type LedgerProblem =
  /** The secret is not the one whose seal was published. */
  | "WRONG_SECRET"
  /** The plan is not the one whose hash was published. */
  | "PLAN_CHANGED"
  /** The entry's content no longer gives its hash. */
  | "CHANGED_ENTRY"
  /** The entry does not follow the one before: one dropped, swapped or slipped in, or another trial, plan or seal. */
  | "BROKEN_CHAIN"
  /** The outing has been drawn for before. */
  | "SECOND_DRAW_FOR_OUTING"
  /** The entry's arms, their order or their grains are not the plan's. */
  | "ARMS_CHANGED"
  /** The entry's boxes, climate group, grains or fetch day are none that the plan has. */
  | "OUTSIDE_PLAN"
  /** The entry's `drawnBefore` counts are not those of the earlier entries. */
  | "COUNTS_DONT_FOLLOW"
  /** The entry returns an allocation that this household never had, or that has come back already. */
  | "RETURN_DOESNT_FOLLOW"
  /** This version of Grainlot does not know the entry's rule. */
  | "UNKNOWN_ALGORITHM"
  /** The entry's rule is older than that of the draw before, or than the form of plan: a second result to choose from. */
  | "OLDER_ALGORITHM"
  /** Drawing again from the secret gives another result, or no draw could have given this one. */
  | "NOT_AS_DRAWN"
  /** The ledger has fewer draws than were published. */
  | "TRUNCATED"
  /** The ledger reaches the published number of draws with another hash: the whole chain was rewritten. */
  | "OTHER_HEAD"
  /** The published head is another trial's: its seal is not this ledger's. */
  | "OTHER_TRIAL";

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
  const draws = new DrawChecks(ledger);
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

/** What the plan and the entries read so far say about the next one. */
class DrawChecks {
  private readonly arms: LedgerPlan["arms"];
  private readonly design: DrawDesign;
  private readonly earlier: EarlierDraws;
  private readonly returned = new Set<string>();
  private readonly boxes: LedgerPlan["boxesPerSet"];
  private readonly climateGroups: ReadonlySet<string>;
  private readonly grains: ReadonlySet<string>;
  private generation: number;

  constructor({ plan }: LedgerToCheck) {
    this.arms = plan.arms;
    this.boxes = plan.boxesPerSet;
    const groups =
      "climateGroups" in plan ? plan.climateGroups : plan.climateGrouping.map(({ code }) => code);
    this.climateGroups = new Set(groups);
    this.grains = new Set(plan.arms.map(({ grain }) => grain));
    // Plans have told their form since the second generation of rules.
    this.generation = "form" in plan ? 2 : 1;
    this.design = designOf(plan);
    this.earlier = new EarlierDraws(plan.arms.map(({ code }) => code));
  }

  /** Remembers the entry when nothing is wrong with it. */
  problemOf(entry: LedgerEntry, trialId: string, secretHex: string | undefined): LedgerProblem | null {
    const problem =
      this.ruleProblem(entry) ?? this.inputsProblem(entry) ?? this.resultProblem(entry, trialId, secretHex);
    if (problem !== null) return problem;
    this.earlier.add(entry);
    this.generation = generationOf(entry.algorithm);
    if (entry.inputs.returns !== undefined) this.returned.add(entry.inputs.returns);
    return null;
  }

  private ruleProblem({ algorithm }: LedgerEntry): LedgerProblem | null {
    const generation = generationOf(algorithm);
    if (generation === 0) return "UNKNOWN_ALGORITHM";
    return generation < this.generation ? "OLDER_ALGORITHM" : null;
  }

  private inputsProblem(entry: LedgerEntry): LedgerProblem | null {
    const { inputs } = entry;
    if (this.earlier.entryOf(inputs.outingId) !== undefined) return "SECOND_DRAW_FOR_OUTING";
    const sameArms =
      inputs.arms.length === this.arms.length &&
      inputs.arms.every(({ code, grain }, i) => code === this.arms[i]?.code && grain === this.arms[i]?.grain);
    if (!sameArms) return "ARMS_CHANGED";
    if (!this.isWithinPlan(entry)) return "OUTSIDE_PLAN";
    const before = this.earlier.drawnBefore(inputs.climateGroup);
    if (inputs.arms.some(({ code, drawnBefore }) => drawnBefore !== (before.get(code) ?? 0))) {
      return "COUNTS_DONT_FOLLOW";
    }
    if (inputs.returns === undefined) return null;
    const follows =
      this.earlier.entryOf(inputs.returns)?.inputs.household === inputs.household &&
      !this.returned.has(inputs.returns);
    return follows ? null : "RETURN_DOESNT_FOLLOW";
  }

  private isWithinPlan({ algorithm, inputs, fetchAfterDays }: LedgerEntry): boolean {
    const { boxes, climateGroup, grainsAtHand } = inputs;
    // The first draws noted whatever grain was at hand, the trial's or not.
    const notesAnyGrain = generationOf(algorithm) === 1;
    const days = this.design.fetchAfterDays;
    return (
      boxes >= this.boxes.min &&
      boxes <= this.boxes.max &&
      this.climateGroups.has(climateGroup) &&
      (notesAnyGrain || grainsAtHand.every((grain) => this.grains.has(grain))) &&
      (fetchAfterDays === undefined ? days === null : days?.includes(fetchAfterDays) === true)
    );
  }

  private resultProblem(
    { algorithm, inputs, number, result, fetchAfterDays }: LedgerEntry,
    trialId: string,
    secretHex: string | undefined,
  ): LedgerProblem | null {
    const cookable = new Set(cookableArms(inputs.arms, inputs.grainsAtHand).map(({ code }) => code));
    const possible =
      result.length === inputs.boxes &&
      result.every(({ position, arm }, i) => position === i + 1 && cookable.has(arm));
    if (!possible) return "NOT_AS_DRAWN";
    if (secretHex === undefined) return null;
    const random = drawSource({ secretHex, trialId, drawNumber: number });
    const drawn = drawRule(algorithm)?.(inputs, random, this.earlier.of(inputs), this.design);
    const same =
      drawn?.ok &&
      drawn.fetchAfterDays === fetchAfterDays &&
      drawn.placements.every(({ arm }, i) => arm === result[i]?.arm);
    return same ? null : "NOT_AS_DRAWN";
  }
}
