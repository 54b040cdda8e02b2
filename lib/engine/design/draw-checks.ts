import type { LedgerEntry } from "@/shared/schemas/draw";
import type { LedgerPlan } from "@/shared/schemas/ledger-file";
import { drawSource } from "../random/source";
import { cookableArms, type DrawDesign, designOf } from "./draw";
import { EarlierDraws } from "./history";
import type { LedgerProblem } from "./ledger-problem";
import { drawRule, generationOf } from "./rules";

/** What the plan and the entries read so far say about the next one. */
export class DrawChecks {
  private readonly arms: LedgerPlan["arms"];
  private readonly design: DrawDesign;
  private readonly earlier: EarlierDraws;
  private readonly returned = new Set<string>();
  private readonly boxes: LedgerPlan["boxesPerSet"];
  private readonly climateGroups: ReadonlySet<string>;
  private readonly grains: ReadonlySet<string>;
  private generation: number;

  constructor(plan: LedgerPlan) {
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
