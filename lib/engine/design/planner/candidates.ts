import type { DesignKind } from "@/shared/schemas/planner-result";
import { seededSource } from "../../random/source";
import { balancedDesign } from "./balanced";
import { completeSets } from "./complete";
import { cyclicSets } from "./cyclic";
import type { SetOfArms } from "./information";
import { optimisedSets } from "./optimised";
import { resolvableSets } from "./resolvable";

/** A way to fill sets of one size with arms. */
export interface Candidate {
  readonly kind: DesignKind;
  readonly boxesPerSet: number;
  /** Sets after which every arm has come equally often (balanced: every pair too); null: no such number. */
  readonly period: number | null;
  /** The first `count` sets of the design; the same count gives the same sets. */
  readonly sets: (count: number) => readonly SetOfArms[];
}

/** Every candidate for sets of that many boxes, in the order in which equals are preferred. */
export function candidatesFor(arms: number, boxesPerSet: number, seed: string): readonly Candidate[] {
  const source = (kind: DesignKind, count: number) => seededSource(`${seed}/${kind}/${boxesPerSet}/${count}`);
  const made = (kind: DesignKind, period: number | null, build: Builder): Candidate => {
    const known = new Map<number, readonly SetOfArms[]>();
    const sets = (count: number) => {
      const before = known.get(count) ?? build(arms, boxesPerSet, count, source(kind, count));
      known.set(count, before);
      return before;
    };
    return { kind, boxesPerSet, period, sets };
  };
  if (boxesPerSet >= arms) {
    return [made("complete", boxesPerSet % arms === 0 ? 1 : null, completeSets)];
  }
  const candidates: Candidate[] = [];
  const balanced = balancedDesign(arms, boxesPerSet);
  if (balanced) {
    candidates.push(made("balanced", balanced.length, (_arms, _boxes, count) => repeat(balanced, count)));
  }
  const perReplicate = arms / boxesPerSet;
  if (Number.isInteger(perReplicate)) candidates.push(made("resolvable", perReplicate, resolvableSets));
  candidates.push(made("cyclic", arms, cyclicSets), made("optimised", null, optimisedSets));
  return candidates;
}

type Builder = (
  arms: number,
  boxes: number,
  count: number,
  random: ReturnType<typeof seededSource>,
) => readonly SetOfArms[];

function repeat(design: readonly SetOfArms[], count: number): SetOfArms[] {
  return Array.from({ length: count }, (_, s) => design[s % design.length]!);
}
