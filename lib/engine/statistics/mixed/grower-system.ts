import { choleskyInPlace, invertFactorInPlace } from "./dense";
import type { SufficientData } from "./sufficient";

/** Variances as multiples of the residual variance, one per random term. */
export interface VarianceRatios {
  /** λ of outing; ∞ stands for fixed outings, whose levels are swept out. */
  readonly outing: number;
  readonly grower: number;
  readonly growerArm: number;
}

/**
 * One grower's share of the normal equations. With F the grower's own fixed columns and y its centred outcomes as a
 * last column ("bordered"), C, Z_o, Z_a, 1 the incidences of cells, outings, arms and the grower, and
 *
 *     V = I + λ_o Z_oZ_o′ + λ_ga Z_aZ_a′ + λ_g 11′
 *
 * the covariance over the residual variance, it makes F′V⁻¹F and what the slope along each λ needs. V is inverted in
 * three steps: outings by I − λ_o/(1+nλ_o) J, arms by Woodbury's formula with the m × m matrix
 * S = I + λ_ga Z_a′W⁻¹Z_a (m arms), the grower as one rank. Cost m³ + outings·m², whatever the number of boxes.
 * This is design K = λ_ga (J_bands ⊗ I_arms) + λ_g J, taken by arms so that several bands cost no more.
 *
 * Arrays are scratch, good until the next `solve`; rows follow each other with the stride named.
 */
export class GrowerSystem {
  readonly #data: SufficientData;
  /** Own fixed columns; the bordered size is p + 1. */
  p = 0;
  /** Own arms. */
  m = 0;
  /** F′V⁻¹F bordered by y, both triangles, stride p + 1. Its last number lacks the plain Σy². */
  readonly information: Float64Array;
  /** F′V⁻¹1, bordered. */
  readonly withGrower: Float64Array;
  /** F′V⁻¹Z_a, bordered: p + 1 rows, stride m. */
  readonly withArms: Float64Array;
  /** F′V⁻¹Z_oZ_o′V⁻¹F, bordered, lower triangle, stride p + 1. */
  readonly outingSquare: Float64Array;
  /** log|V|, without fixed outings' infinite part. */
  logDeterminant = 0;
  /** tr(V⁻¹Z_kZ_k′) of outing, grower, growerArm. */
  readonly traces = new Float64Array(3);

  /** Z_a′W⁻¹ against everything (p + 1 rows, stride m), then, after `#sweepArms`, times λ_ga S⁻¹. */
  readonly #arms: Float64Array;
  readonly #factored: Float64Array;
  /** S, then the inverse of its Cholesky factor; stride m. */
  readonly #s: Float64Array;
  readonly #sInverse: Float64Array;
  readonly #withOuting: Float64Array;

  constructor(data: SufficientData) {
    this.#data = data;
    let size = 1;
    for (let g = 0; g < data.growerCount; g++) {
      size = Math.max(size, data.ownStart[g + 1]! - data.ownStart[g]! + 1);
    }
    const arms = data.ownArms.reduce((most, m) => Math.max(most, m), 1);
    this.information = new Float64Array(size * size);
    this.outingSquare = new Float64Array(size * size);
    this.withGrower = new Float64Array(size);
    this.withArms = new Float64Array(size * arms);
    this.#arms = new Float64Array(size * arms);
    this.#factored = new Float64Array(size * arms);
    this.#s = new Float64Array(arms * arms);
    this.#sInverse = new Float64Array(arms * arms);
    this.#withOuting = new Float64Array(size);
  }

  solve(g: number, ratios: VarianceRatios): void {
    const data = this.#data;
    this.p = data.ownStart[g + 1]! - data.ownStart[g]!;
    this.m = data.ownArms[g]!;
    this.logDeterminant = 0;
    this.traces.fill(0);
    this.#sweepOutings(g, ratios.outing);
    if (ratios.growerArm !== 0) this.#sweepArms(g, ratios.growerArm);
    this.#fillUpper();
    const { t, share } = this.#sweepGrower(g, ratios.grower);
    this.traces[1] = t / (1 + ratios.grower * t);
    this.#addUpArms(g);
    if (Number.isFinite(ratios.outing)) this.#squareOutings(g, ratios, share);
  }

  /** F′W⁻¹F, lower triangle, with W = I + λ_o Z_oZ_o′. */
  #sweepOutings(g: number, lambda: number): void {
    const { growerStart, outingStart, outingBoxes, outingSum, outingAvailability } = this.#data;
    const { entryColumn, entryBoxes, entrySum } = this.#data;
    const a = this.information;
    const y = this.p;
    const q = y + 1;
    a.fill(0, 0, q * q);
    for (let o = growerStart[g]!; o < growerStart[g + 1]!; o++) {
      const n = outingBoxes[o]!;
      const taken = takenShare(n, lambda);
      const kept = keptShare(n, lambda);
      if (kept > 0) this.logDeterminant -= Math.log(kept);
      const sum = outingSum[o]!;
      const d = outingAvailability[o]!;
      for (let e = outingStart[o]!; e < outingStart[o + 1]!; e++) {
        const row = entryColumn[e]!;
        const boxes = entryBoxes[e]!;
        const scaled = taken * boxes;
        a[row * q + row]! += boxes;
        for (let f = outingStart[o]!; f <= e; f++) a[row * q + entryColumn[f]!]! -= scaled * entryBoxes[f]!;
        a[y * q + row]! += entrySum[e]! - scaled * sum;
        if (d >= 0) a[d * q + row]! += kept * boxes;
      }
      a[y * q + y]! -= taken * sum * sum;
      if (d >= 0) {
        a[d * q + d]! += kept * n;
        a[y * q + d]! += kept * sum;
      }
    }
  }

  /** Takes grower × arm out of `information`; leaves λ_ga·(F′W⁻¹Z_a)·S⁻¹ in `#arms` and S⁻¹ in `#sInverse`. */
  #sweepArms(g: number, lambda: number): void {
    const { ownStart, ownCells, ownArm } = this.#data;
    const { m, information: a } = this;
    const [x, u, s, sInverse] = [this.#arms, this.#factored, this.#s, this.#sInverse];
    const q = this.p + 1;
    const own = ownStart[g]!;
    const cells = ownCells[g]!;
    x.fill(0, 0, q * m);
    s.fill(0, 0, m * m);
    for (let c = 0; c < cells; c++) {
      const arm = ownArm[own + c]!;
      for (let j = 0; j < c; j++) x[j * m + arm]! += a[c * q + j]!;
      for (let j = c; j < q; j++) x[j * m + arm]! += a[j * q + c]!;
    }
    for (let c = 0; c < cells; c++) {
      const arm = ownArm[own + c]!;
      for (let l = 0; l < m; l++) s[arm * m + l]! += lambda * x[c * m + l]!;
    }
    for (let l = 0; l < m; l++) s[l * m + l]! += 1;
    this.logDeterminant += choleskyInPlace(s, m, m);
    invertFactorInPlace(s, m, m);
    for (let l = 0; l < m; l++) {
      for (let k = 0; k <= l; k++) {
        let sum = 0;
        for (let at = l * m; at < m * m; at += m) sum += s[at + l]! * s[at + k]!;
        sInverse[l * m + k] = sum;
        sInverse[k * m + l] = sum;
      }
    }
    for (let j = 0; j < q; j++) {
      const row = j * m;
      for (let l = 0; l < m; l++) {
        const factor = l * m;
        let sum = 0;
        for (let k = 0; k <= l; k++) sum += s[factor + k]! * x[row + k]!;
        u[row + l] = sum;
      }
      for (let i = 0; i <= j; i++) {
        const other = i * m;
        let sum = 0;
        for (let l = 0; l < m; l++) sum += u[row + l]! * u[other + l]!;
        a[j * q + i]! -= lambda * sum;
      }
      for (let k = 0; k < m; k++) {
        let sum = 0;
        for (let l = k, at = k * m + k; l < m; l++, at += m) sum += u[row + l]! * s[at]!;
        x[row + k] = lambda * sum;
      }
    }
  }

  #fillUpper(): void {
    const a = this.information;
    const q = this.p + 1;
    for (let j = 1; j < q; j++) for (let i = 0; i < j; i++) a[i * q + j] = a[j * q + i]!;
  }

  /** Takes the grower out of `information`. Returns t = 1′V₀⁻¹1 without the grower, and λ_g/(1 + λ_g t). */
  #sweepGrower(g: number, lambda: number): { t: number; share: number } {
    const { information: a, withGrower: r } = this;
    const q = this.p + 1;
    const cells = this.#data.ownCells[g]!;
    let t = 0;
    for (let j = 0; j < q; j++) {
      let sum = 0;
      for (let c = 0; c < cells; c++) sum += a[j * q + c]!;
      r[j] = sum;
      if (j < cells) t += sum;
    }
    const share = lambda / (1 + lambda * t);
    this.logDeterminant += Math.log1p(lambda * t);
    for (let j = 0; j < q; j++) {
      for (let i = 0; i < q; i++) a[j * q + i]! -= share * r[j]! * r[i]!;
    }
    for (let j = 0; j < q; j++) r[j]! /= 1 + lambda * t;
    return { t, share };
  }

  #addUpArms(g: number): void {
    const { m, information: a, withArms } = this;
    const { ownStart, ownCells, ownArm } = this.#data;
    const q = this.p + 1;
    const own = ownStart[g]!;
    withArms.fill(0, 0, q * m);
    for (let c = 0; c < ownCells[g]!; c++) {
      const arm = ownArm[own + c]!;
      for (let j = 0; j < q; j++) withArms[j * m + arm]! += a[j * q + c]!;
    }
    for (let c = 0; c < ownCells[g]!; c++) this.traces[2]! += withArms[c * m + ownArm[own + c]!]!;
  }

  #squareOutings(g: number, ratios: VarianceRatios, share: number): void {
    const { growerStart, ownCells, outingBoxes } = this.#data;
    const { outingSquare: square, withGrower } = this;
    const w = this.#withOuting;
    const q = this.p + 1;
    const cells = ownCells[g]!;
    square.fill(0, 0, q * q);
    for (let o = growerStart[g]!; o < growerStart[g + 1]!; o++) {
      const kept = keptShare(outingBoxes[o]!, ratios.outing);
      const throughArms = this.#outingColumn(g, o, ratios);
      let total = 0;
      for (let j = 0; j < cells; j++) total += w[j]!;
      for (let j = 0; j < q; j++) {
        w[j] = kept * (w[j]! - ratios.grower * total * withGrower[j]!);
      }
      total *= kept;
      this.traces[0]! += kept * outingBoxes[o]! - kept * kept * throughArms - share * total * total;
      for (let j = 0; j < q; j++) {
        const wj = w[j]!;
        for (let i = 0; i <= j; i++) square[j * q + i]! += wj * w[i]!;
      }
    }
  }

  /**
   * F′V₀⁻¹1_o (1 + nλ_o) into `#withOuting`, V₀ being V without the grower. Returns λ_ga h′S⁻¹h, h the outing's
   * boxes per arm.
   */
  #outingColumn(g: number, o: number, ratios: VarianceRatios): number {
    const { ownStart, ownArm, outingStart, entryColumn, entryBoxes } = this.#data;
    const { outingSum, outingBoxes, outingAvailability } = this.#data;
    const { p, m } = this;
    const [w, x, sInverse] = [this.#withOuting, this.#arms, this.#sInverse];
    const own = ownStart[g]!;
    w.fill(0, 0, p);
    w[p] = outingSum[o]!;
    if (outingAvailability[o]! >= 0) w[outingAvailability[o]!] = outingBoxes[o]!;
    for (let e = outingStart[o]!; e < outingStart[o + 1]!; e++) w[entryColumn[e]!]! += entryBoxes[e]!;
    if (ratios.growerArm === 0) return 0;
    let form = 0;
    for (let e = outingStart[o]!; e < outingStart[o + 1]!; e++) {
      const arm = ownArm[own + entryColumn[e]!]!;
      const boxes = entryBoxes[e]!;
      for (let j = 0; j <= p; j++) w[j]! -= x[j * m + arm]! * boxes;
      for (let f = outingStart[o]!; f < outingStart[o + 1]!; f++) {
        form += boxes * entryBoxes[f]! * sInverse[arm * m + ownArm[own + entryColumn[f]!]!]!;
      }
    }
    return ratios.growerArm * form;
  }
}

/** λ/(1 + nλ): how much of an outing's sums its random (or, at λ = ∞, fixed) level takes. */
export function takenShare(n: number, lambda: number): number {
  return Number.isFinite(lambda) ? lambda / (1 + n * lambda) : 1 / n;
}

/** 1/(1 + nλ). */
export function keptShare(n: number, lambda: number): number {
  return Number.isFinite(lambda) ? 1 / (1 + n * lambda) : 0;
}
