import type { SufficientData } from "./sufficient";
import { RANDOM_TERMS, type RandomTerm, type VarianceName } from "./types";

/** A term whose covariance pattern is a sum of multiples of other terms' patterns. */
export interface Inseparable {
  readonly term: RandomTerm;
  readonly within: readonly VarianceName[];
}

const NAMES: readonly VarianceName[] = ["residual", ...RANDOM_TERMS];

/**
 * Which of the terms the layout can't tell from earlier ones (residual, outing, grower, growerArm in this order),
 * whatever the outcomes: the pattern Z_kZ_k′ is a linear combination of theirs, so that the criterion is flat along
 * a line. So grower × arm stands within the residual when no grower meets an arm twice, and grower within outing
 * when each has one outing. Decided exactly from counts: ⟨Z_jZ_j′, Z_kZ_k′⟩ is the number of pairs of boxes that
 * share both levels.
 */
export function inseparableTerms(data: SufficientData, terms: readonly RandomTerm[]): Inseparable[] {
  const shared = sharedPairs(data);
  const kept: number[] = [0];
  const result: Inseparable[] = [];
  for (const term of RANDOM_TERMS) {
    if (!terms.includes(term)) continue;
    const k = NAMES.indexOf(term);
    const { left, weights } = project(shared, kept, k);
    if (left > 1e-9 * shared[k]![k]!) {
      kept.push(k);
    } else {
      const within = kept.filter((_, i) => Math.abs(weights[i]!) > 1e-6).map((j) => NAMES[j]!);
      result.push({ term, within });
    }
  }
  return result;
}

/** Least squares of pattern k on the kept ones: what is left of its squared length, and the weights. */
function project(shared: readonly (readonly number[])[], kept: readonly number[], k: number) {
  const rows = kept.map((i) => [...kept.map((j) => shared[i]![j]!), shared[i]![k]!]);
  const size = kept.length;
  // Gauss–Jordan; the kept patterns are independent, so that pivots stay positive.
  for (let pivot = 0; pivot < size; pivot++) {
    const scale = rows[pivot]![pivot]!;
    rows[pivot] = rows[pivot]!.map((value) => value / scale);
    for (let i = 0; i < size; i++) {
      if (i === pivot) continue;
      const factor = rows[i]![pivot]!;
      rows[i] = rows[i]!.map((value, j) => value - factor * rows[pivot]![j]!);
    }
  }
  const weights = rows.map((row) => row[size]!);
  const explained = weights.reduce((sum, weight, i) => sum + weight * shared[kept[i]!]![k]!, 0);
  return { left: shared[k]![k]! - explained, weights };
}

/** Pairs of boxes sharing both terms' levels; rows and columns residual, outing, grower, growerArm. */
function sharedPairs(data: SufficientData): number[][] {
  let [outing, outingArm, grower, growerArm] = [0, 0, 0, 0];
  const perArm = new Float64Array(data.ownArms.reduce((most, m) => Math.max(most, m), 1));
  for (let g = 0; g < data.growerCount; g++) {
    perArm.fill(0);
    for (let o = data.growerStart[g]!; o < data.growerStart[g + 1]!; o++) {
      outing += data.outingBoxes[o]! ** 2;
      for (let e = data.outingStart[o]!; e < data.outingStart[o + 1]!; e++) {
        outingArm += data.entryBoxes[e]! ** 2;
        perArm[data.ownArm[data.ownStart[g]! + data.entryColumn[e]!]!]! += data.entryBoxes[e]!;
      }
    }
    grower += data.growerBoxes[g]! ** 2;
    for (const boxes of perArm) growerArm += boxes ** 2;
  }
  const n = data.boxes;
  return [
    [n, n, n, n],
    [n, outing, outing, outingArm],
    [n, outing, grower, growerArm],
    [n, outingArm, growerArm, growerArm],
  ];
}
