import { choleskyInPlace, solveRowsInPlace } from "./dense";
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
 * three steps: outings by W⁻¹ = I − λ_o/(1+nλ_o) J each, arms by Woodbury's formula with the m × m matrix
 * S = I + λ_ga Z_a′W⁻¹Z_a (m arms; V₀ is V so far), the grower as one rank. Cost m³ + outings·m², whatever the
 * number of boxes. Going by arms, a grower's several bands cost no more than one.
 *
 * Arrays are scratch, good until the next `solve`; rows follow each other with the stride named. The steps share
 * them and only make sense in a row, so that they stand in one long file.
 */
export class GrowerSystem {
  readonly #data: SufficientData;
  /** Own fixed columns; the bordered size is p + 1. */
  p = 0;
  /** Own arms. */
  m = 0;
  /** F′V⁻¹F bordered by y, lower triangle, stride p + 1. Its last number lacks the plain Σy². */
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

  /** F′W⁻¹Z_a, bordered: p + 1 rows, stride m. */
  readonly #beforeArms: Float64Array;
  /** S, then its Cholesky factor; stride m. */
  readonly #s: Float64Array;
  readonly #withOuting: Float64Array;
  readonly #perArm: Float64Array;

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
    this.#beforeArms = new Float64Array(size * arms);
    this.#s = new Float64Array(arms * arms);
    this.#withOuting = new Float64Array(size);
    this.#perArm = new Float64Array(arms);
  }

  solve(g: number, ratios: VarianceRatios): void {
    const data = this.#data;
    this.p = data.ownStart[g + 1]! - data.ownStart[g]!;
    this.m = data.ownArms[g]!;
    this.logDeterminant = 0;
    this.traces.fill(0);
    this.#sweepOutings(g, ratios.outing);
    this.#sweepArms(g, ratios.growerArm);
    const share = this.#sweepGrower(g, ratios.grower);
    if (Number.isFinite(ratios.outing)) this.#squareOutings(g, ratios, share);
    this.#finishArms(g, share, ratios.grower);
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

  /** Takes grower × arm out of `information`; leaves F′V₀⁻¹Z_a = F′W⁻¹Z_a S⁻¹ in `withArms`. */
  #sweepArms(g: number, lambda: number): void {
    const { ownStart, ownCells, ownArm } = this.#data;
    const { m, information: a, withArms: after } = this;
    const [before, s] = [this.#beforeArms, this.#s];
    const q = this.p + 1;
    const own = ownStart[g]!;
    const cells = ownCells[g]!;
    before.fill(0, 0, q * m);
    for (let c = 0; c < cells; c++) {
      const arm = ownArm[own + c]!;
      for (let j = 0; j < c; j++) before[j * m + arm]! += a[c * q + j]!;
      for (let j = c; j < q; j++) before[j * m + arm]! += a[j * q + c]!;
    }
    for (let i = 0; i < q * m; i++) after[i] = before[i]!;
    if (lambda === 0) return;
    s.fill(0, 0, m * m);
    for (let c = 0; c < cells; c++) {
      const arm = ownArm[own + c]!;
      for (let l = 0; l < m; l++) s[arm * m + l]! += lambda * before[c * m + l]!;
    }
    for (let l = 0; l < m; l++) s[l * m + l]! += 1;
    this.logDeterminant += choleskyInPlace(s, m, m);
    solveRowsInPlace(s, after, q, m);
    for (let j = 0; j < q; j++) {
      const row = j * m;
      for (let i = 0; i <= j; i++) {
        const other = i * m;
        let sum = 0;
        for (let l = 0; l < m; l++) sum += after[row + l]! * before[other + l]!;
        a[j * q + i]! -= lambda * sum;
      }
    }
  }

  /** Takes the grower out of `information`. Returns λ_g/(1 + λ_g·1′V₀⁻¹1). */
  #sweepGrower(g: number, lambda: number): number {
    const { m, information: a, withGrower: r, withArms } = this;
    const q = this.p + 1;
    const cells = this.#data.ownCells[g]!;
    let t = 0;
    for (let j = 0; j < q; j++) {
      let sum = 0;
      for (let l = 0; l < m; l++) sum += withArms[j * m + l]!;
      r[j] = sum;
      if (j < cells) t += sum;
    }
    const share = lambda / (1 + lambda * t);
    this.logDeterminant += Math.log1p(lambda * t);
    this.traces[1] = t / (1 + lambda * t);
    for (let j = 0; j < q; j++) {
      const scaled = share * r[j]!;
      for (let i = 0; i <= j; i++) a[j * q + i]! -= scaled * r[i]!;
    }
    for (let j = 0; j < q; j++) r[j]! /= 1 + lambda * t;
    return share;
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
      const throughArms = this.#outingColumn(g, o, ratios.growerArm);
      let total = 0;
      for (let j = 0; j < cells; j++) total += w[j]!;
      const throughGrower = ratios.grower * total;
      for (let j = 0; j < q; j++) w[j] = kept * (w[j]! - throughGrower * withGrower[j]!);
      this.traces[0]! += kept * outingBoxes[o]! - kept * kept * (throughArms + share * total * total);
      for (let j = 0; j < q; j++) {
        const wj = w[j]!;
        for (let i = 0; i <= j; i++) square[j * q + i]! += wj * w[i]!;
      }
    }
  }

  /**
   * F′V₀⁻¹1_o·(1 + nλ_o) = v − λ_ga F′V₀⁻¹Z_a h into `#withOuting`, v and h the outing's boxes (and Σy) by column and
   * by arm. Returns λ_ga h′S⁻¹h; S⁻¹h is that vector's cells added up by arm.
   */
  #outingColumn(g: number, o: number, lambda: number): number {
    const { ownStart, ownArm, ownCells, outingStart, entryColumn, entryBoxes } = this.#data;
    const { outingSum, outingBoxes, outingAvailability } = this.#data;
    const { p, m, withArms } = this;
    const [w, perArm] = [this.#withOuting, this.#perArm];
    const own = ownStart[g]!;
    const [from, to] = [outingStart[o]!, outingStart[o + 1]!];
    w.fill(0, 0, p);
    w[p] = outingSum[o]!;
    if (outingAvailability[o]! >= 0) w[outingAvailability[o]!] = outingBoxes[o]!;
    for (let e = from; e < to; e++) w[entryColumn[e]!]! += entryBoxes[e]!;
    if (lambda === 0) return 0;
    for (let e = from; e < to; e++) {
      const scaled = lambda * entryBoxes[e]!;
      for (let j = 0, at = ownArm[own + entryColumn[e]!]!; j <= p; j++, at += m) {
        w[j]! -= scaled * withArms[at]!;
      }
    }
    perArm.fill(0, 0, m);
    for (let c = 0; c < ownCells[g]!; c++) perArm[ownArm[own + c]!]! += w[c]!;
    let form = 0;
    for (let e = from; e < to; e++) form += entryBoxes[e]! * perArm[ownArm[own + entryColumn[e]!]!]!;
    return lambda * form;
  }

  /** Takes the grower out of `withArms` too. */
  #finishArms(g: number, share: number, lambda: number): void {
    const { m, withArms, withGrower: r } = this;
    const { ownStart, ownCells, ownArm } = this.#data;
    const own = ownStart[g]!;
    const cells = ownCells[g]!;
    if (lambda !== 0) {
      const perArm = this.#perArm;
      perArm.fill(0, 0, m);
      for (let c = 0; c < cells; c++) perArm[ownArm[own + c]!]! += r[c]!;
      // F′V₀⁻¹1 is (1 + λt) times `withGrower`, and 1 + λt is λ/share.
      const factor = (lambda * lambda) / share;
      for (let j = 0; j <= this.p; j++) {
        const scaled = factor * r[j]!;
        for (let l = 0; l < m; l++) withArms[j * m + l]! -= scaled * perArm[l]!;
      }
    }
    for (let c = 0; c < cells; c++) this.traces[2]! += withArms[c * m + ownArm[own + c]!]!;
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
