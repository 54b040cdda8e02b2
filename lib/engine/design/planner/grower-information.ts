import { informationOf, invert, type SetOfArms, type Square } from "./information";

/** Variances of growth that information within sets depends on. */
export interface WithinVariances {
  /** Of grower × arm. */
  readonly growerArm: number;
  /** Of boxes alike in all else. */
  readonly residual: number;
}

/**
 * What growers tell about arms when each grower's liking for an arm is random with variance σ²_ga: the sum over
 * growers of D(σ²_e I + σ²_ga D)⁻¹, D the within-set information of the grower's own sets (sets as fixed effects;
 * from Henderson's mixed model equations by Woodbury's identity). G growers with S complete sets each give
 * Var(difference) = 2(σ²_ga/G + σ²_e/(GS)).
 */
export function growerInformation(
  setsByGrower: readonly (readonly SetOfArms[])[],
  arms: number,
  variances: WithinVariances,
): Square {
  const total = new Float64Array(arms * arms);
  const known = new Map<string, Square>();
  for (const sets of setsByGrower) {
    const key = sets.map((set) => set.join(",")).join(";");
    const own = known.get(key) ?? ofOneGrower(sets, arms, variances);
    known.set(key, own);
    for (let at = 0; at < total.length; at++) total[at]! += own[at]!;
  }
  return total;
}

function ofOneGrower(sets: readonly SetOfArms[], arms: number, variances: WithinVariances): Square {
  const boxes = sets.flat();
  const met = [...new Set(boxes)];
  if (met.length === boxes.length) {
    // No arm twice: D is a projection, and the formula a division.
    return informationOf(sets, arms).map((x) => x / (variances.residual + variances.growerArm));
  }
  const place = new Map(met.map((arm, i) => [arm, i]));
  const size = met.length;
  const d = informationOf(
    sets.map((set) => set.map((arm) => place.get(arm)!)),
    size,
  );
  const spread = d.map((x, at) => variances.growerArm * x + (at % (size + 1) === 0 ? variances.residual : 0));
  const inverse = invert(spread, size);
  const own = new Float64Array(arms * arms);
  for (let i = 0; i < size; i++) {
    for (let j = 0; j < size; j++) {
      let sum = 0;
      for (let l = 0; l < size; l++) sum += d[i * size + l]! * inverse[l * size + j]!;
      own[met[i]! * arms + met[j]!] = sum;
    }
  }
  return own;
}
