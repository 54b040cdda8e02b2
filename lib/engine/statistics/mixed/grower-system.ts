import { choleskyInPlace, forwardRowsInPlace } from "./dense";
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
 * number of boxes. Going by arms, a grower's several bands cost no more than one. A grower with fewer outings than
 * arms, each arm in one band, goes the other way round and inverts a matrix of outings only. The columns of Z_a and 1
 * are sums of F's cells, so that F′V⁻¹Z_a and F′V⁻¹1 are sums of columns of F′V⁻¹F.
 *
 * Arrays are scratch, good until the next `solve`; rows follow each other with the stride named. The steps share
 * them and only make sense in a row, so that they stand in one long file; it is where a large fit spends its time, so
 * that loops go over what stands side by side and take nothing new from memory.
 */
export class GrowerSystem {
  readonly #data: SufficientData;
  /** Own fixed columns; the bordered size is p + 1. */
  p = 0;
  /** Own arms. */
  m = 0;
  outings = 0;
  /** F′V⁻¹F bordered by y, both triangles, stride p + 1. Its last number lacks the plain Σy². */
  readonly information: Float64Array;
  /** F′V⁻¹1, bordered. */
  readonly withGrower: Float64Array;
  /** F′V⁻¹Z_a, bordered: p + 1 rows, stride m. */
  readonly withArms: Float64Array;
  /** F′V⁻¹Z_o, bordered: p + 1 rows, stride `outings`; not with fixed outings. */
  readonly withOutings: Float64Array;
  /** log|V|, without fixed outings' infinite part. */
  logDeterminant = 0;
  /** tr(V⁻¹Z_kZ_k′) of outing, grower, growerArm. */
  readonly traces = new Float64Array(3);

  /** S, then its Cholesky factor; stride m, or outings where they are swept out last. */
  readonly #s: Float64Array;
  readonly #withOuting: Float64Array;
  readonly #perArm: Float64Array;
  /** Boxes and Σy of each of the growers' own cells, by place in `ownColumn`. */
  readonly #cellBoxes: Float64Array;
  readonly #cellSum: Float64Array;

  constructor(data: SufficientData) {
    this.#data = data;
    this.#cellBoxes = new Float64Array(data.ownColumn.length);
    this.#cellSum = new Float64Array(data.ownColumn.length);
    let size = 1;
    let outings = 1;
    for (let g = 0; g < data.growerCount; g++) {
      const own = data.ownStart[g]!;
      const [first, end] = [data.growerStart[g]!, data.growerStart[g + 1]!];
      size = Math.max(size, data.ownStart[g + 1]! - own + 1);
      outings = Math.max(outings, end - first);
      for (let e = data.outingStart[first]!; e < data.outingStart[end]!; e++) {
        this.#cellBoxes[own + data.entryColumn[e]!]! += data.entryBoxes[e]!;
        this.#cellSum[own + data.entryColumn[e]!]! += data.entrySum[e]!;
      }
    }
    const arms = data.ownArms.reduce((most, m) => Math.max(most, m), 1);
    this.information = new Float64Array(size * size);
    this.withOutings = new Float64Array(size * outings);
    this.withGrower = new Float64Array(size);
    this.withArms = new Float64Array(size * arms);
    this.#s = new Float64Array(arms * arms);
    this.#withOuting = new Float64Array(size);
    this.#perArm = new Float64Array(arms);
  }

  solve(g: number, ratios: VarianceRatios): void {
    const data = this.#data;
    this.p = data.ownStart[g + 1]! - data.ownStart[g]!;
    this.m = data.ownArms[g]!;
    this.outings = data.growerStart[g + 1]! - data.growerStart[g]!;
    this.logDeterminant = 0;
    this.traces.fill(0);
    const isFixed = !Number.isFinite(ratios.outing);
    if (this.outings < this.m && this.m === data.ownCells[g] && !isFixed) {
      this.#sweepSeparateArms(g, ratios.growerArm);
      this.#sweepFewOutings(g, ratios);
    } else {
      this.#sweepOutings(g, ratios.outing);
      this.#addByArm(g);
      this.#sweepArms(g, ratios.growerArm);
    }
    this.#sweepGrower(g, ratios.grower);
    this.#addByArm(g);
    this.#traceArms(g);
    if (!isFixed) this.#solveOutings(g, ratios);
  }

  /** F′U⁻¹F over cells and y, each cell being an arm of its own: U⁻¹ takes the share 1/(1 + λ_ga n) of a cell's n boxes. */
  #sweepSeparateArms(g: number, lambda: number): void {
    const { information: a, m, p: y } = this;
    const [boxes, sums] = [this.#cellBoxes, this.#cellSum];
    const own = this.#data.ownStart[g]!;
    const q = y + 1;
    a.fill(0, 0, q * q);
    let squares = 0;
    for (let c = 0; c < m; c++) {
      const n = boxes[own + c]!;
      const kept = keptShare(n, lambda);
      if (kept < 1) this.logDeterminant -= Math.log(kept);
      const sum = kept * sums[own + c]!;
      a[c * q + c] = kept * n;
      a[c * q + y] = sum;
      a[y * q + c] = sum;
      squares += sum * sums[own + c]!;
    }
    a[y * q + y] = -lambda * squares;
  }

  /** Takes outings out of `information`, after arms; an availability column is a sum of outings. */
  #sweepFewOutings(g: number, ratios: VarianceRatios): void {
    const { information: a, withOutings: rows, outings, m, p } = this;
    const { growerStart, outingAvailability } = this.#data;
    const s = this.#s;
    const q = p + 1;
    this.#fillOutings(g, ratios.growerArm);
    for (let o = 0; o < outings; o++) {
      const d = outingAvailability[growerStart[g]! + o]!;
      if (d >= 0) for (let u = 0; u < outings; u++) rows[d * outings + u]! += s[o * outings + u]!;
    }
    for (let o = 0; o < outings; o++) {
      const d = outingAvailability[growerStart[g]! + o]!;
      if (d < 0) continue;
      for (let j = 0; j < q; j++) {
        const shared = rows[j * outings + o]!;
        a[d * q + j]! += shared;
        if (j < m || j === p) a[j * q + d]! += shared;
      }
    }
    if (ratios.outing === 0) return;
    for (let at = 0; at < outings * outings; at++) s[at]! *= ratios.outing;
    for (let o = 0; o < outings; o++) s[o * outings + o]! += 1;
    this.#takeOut(rows, outings, ratios.outing);
  }

  /** F′U⁻¹1_o over cells and y into `withOutings`, and Z_o′U⁻¹Z_o, both triangles, into `#s`. */
  #fillOutings(g: number, lambda: number): void {
    const { growerStart, outingStart, outingBoxes, outingSum, entryColumn, entryBoxes, ownStart } =
      this.#data;
    const { information: a, withOutings: rows, outings, p: y } = this;
    const [s, boxes] = [this.#s, this.#cellBoxes];
    const own = ownStart[g]!;
    const first = growerStart[g]!;
    rows.fill(0, 0, (y + 1) * outings);
    for (let o = 0; o < outings; o++) {
      const row = o * outings;
      for (let u = 0; u < o; u++) s[row + u] = 0;
      let [onItself, sum] = [outingBoxes[first + o]!, outingSum[first + o]!];
      for (let e = outingStart[first + o]!; e < outingStart[first + o + 1]!; e++) {
        const c = entryColumn[e]!;
        const through = lambda * entryBoxes[e]!;
        const kept = entryBoxes[e]! * keptShare(boxes[own + c]!, lambda);
        rows[c * outings + o] = kept;
        onItself -= through * kept;
        sum -= through * a[y * (y + 1) + c]!;
        for (let u = 0; u < o; u++) s[row + u]! -= through * rows[c * outings + u]!;
      }
      rows[y * outings + o] = sum;
      s[row + o] = onItself;
      for (let u = 0; u < o; u++) s[u * outings + o] = s[row + u]!;
    }
  }

  /** With S = LL′ in `#s` and `rows` F′V₀⁻¹Z, takes λ·RR′, R = F′V₀⁻¹Z L⁻ᵀ, from `information`: Z's levels are swept out. */
  #takeOut(rows: Float64Array, levels: number, lambda: number): void {
    const a = this.information;
    const q = this.p + 1;
    this.logDeterminant += choleskyInPlace(this.#s, levels, levels);
    forwardRowsInPlace(this.#s, rows, q, levels);
    for (let j = 0; j < q; j++) {
      for (let i = 0; i <= j; i++) {
        let sum = 0;
        for (let l = 0, x = j * levels, y = i * levels; l < levels; l++, x++, y++) sum += rows[x]! * rows[y]!;
        const left = a[j * q + i]! - lambda * sum;
        a[j * q + i] = left;
        a[i * q + j] = left;
      }
    }
  }

  /** F′W⁻¹F, with W = I + λ_o Z_oZ_o′. */
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
    for (let j = 1; j < q; j++) for (let i = 0; i < j; i++) a[i * q + j] = a[j * q + i]!;
  }

  /** The columns of `information` added up by arm, into `withArms`. */
  #addByArm(g: number): void {
    const { ownStart, ownCells, ownArm } = this.#data;
    const { m, information: a, withArms } = this;
    const q = this.p + 1;
    const own = ownStart[g]!;
    const cells = ownCells[g]!;
    if (cells === m) {
      // One cell an arm, as in a single band: they are numbered alike.
      for (let j = 0; j < q; j++) for (let l = 0; l < m; l++) withArms[j * m + l] = a[j * q + l]!;
      return;
    }
    withArms.fill(0, 0, q * m);
    for (let j = 0; j < q; j++) {
      for (let c = 0; c < cells; c++) withArms[j * m + ownArm[own + c]!]! += a[j * q + c]!;
    }
  }

  /** Takes grower × arm out of `information`, after outings. */
  #sweepArms(g: number, lambda: number): void {
    if (lambda === 0) return;
    const { ownStart, ownCells, ownArm } = this.#data;
    const { m, withArms: rows } = this;
    const s = this.#s;
    const own = ownStart[g]!;
    s.fill(0, 0, m * m);
    for (let c = 0; c < ownCells[g]!; c++) {
      const to = ownArm[own + c]! * m;
      for (let l = 0; l < m; l++) s[to + l]! += lambda * rows[c * m + l]!;
    }
    for (let l = 0; l < m; l++) s[l * m + l]! += 1;
    this.#takeOut(rows, m, lambda);
  }

  /** Takes the grower out of `information`. */
  #sweepGrower(g: number, lambda: number): void {
    const { information: a, withGrower: r } = this;
    const q = this.p + 1;
    const cells = this.#data.ownCells[g]!;
    let t = 0;
    for (let j = 0; j < q; j++) {
      let sum = 0;
      for (let c = 0, at = j * q; c < cells; c++, at++) sum += a[at]!;
      r[j] = sum;
      if (j < cells) t += sum;
    }
    this.logDeterminant += Math.log1p(lambda * t);
    this.traces[1] = t / (1 + lambda * t);
    const share = lambda / (1 + lambda * t);
    for (let j = 0; j < q; j++) {
      const scaled = share * r[j]!;
      for (let i = 0, at = j * q; i < q; i++, at++) a[at]! -= scaled * r[i]!;
    }
    for (let j = 0; j < q; j++) r[j]! /= 1 + lambda * t;
  }

  #traceArms(g: number): void {
    const { m, withArms } = this;
    const { ownStart, ownCells, ownArm } = this.#data;
    const own = ownStart[g]!;
    const cells = ownCells[g]!;
    let trace = 0;
    for (let c = 0; c < cells; c++) trace += withArms[c * m + ownArm[own + c]!]!;
    this.traces[2] = trace;
  }

  #solveOutings(g: number, ratios: VarianceRatios): void {
    const { withOutings, outings, p } = this;
    const w = this.#withOuting;
    const first = this.#data.growerStart[g]!;
    for (let o = 0; o < outings; o++) {
      this.#solveOuting(g, first + o, ratios);
      for (let j = 0, at = o; j <= p; j++, at += outings) withOutings[at] = w[j]!;
    }
  }

  /**
   * w = F′V⁻¹1_o and the outing's part of tr(V⁻¹Z_oZ_o′). As W⁻¹1_o = 1_o/(1 + nλ_o) for its n boxes and
   * V⁻¹ = W⁻¹ − V⁻¹(V − W)W⁻¹, w = (v − λ_ga F′V⁻¹Z_a h − λ_g n F′V⁻¹1)/(1 + nλ_o), v and h the outing's boxes (and Σy)
   * by column and by arm.
   */
  #solveOuting(g: number, o: number, ratios: VarianceRatios): void {
    const { ownStart, ownArm, ownCells, outingStart, entryColumn, entryBoxes } = this.#data;
    const { outingSum, outingBoxes, outingAvailability } = this.#data;
    const { p, m, withArms, withGrower } = this;
    const w = this.#withOuting;
    const own = ownStart[g]!;
    const cells = ownCells[g]!;
    const [from, to] = [outingStart[o]!, outingStart[o + 1]!];
    const n = outingBoxes[o]!;
    const kept = keptShare(n, ratios.outing);
    const throughGrower = ratios.grower * n;
    for (let j = 0; j <= p; j++) w[j] = -throughGrower * withGrower[j]!;
    w[p]! += outingSum[o]!;
    if (outingAvailability[o]! >= 0) w[outingAvailability[o]!]! += n;
    for (let e = from; e < to; e++) {
      w[entryColumn[e]!]! += entryBoxes[e]!;
      const scaled = ratios.growerArm * entryBoxes[e]!;
      if (scaled === 0) continue;
      for (let j = 0, at = ownArm[own + entryColumn[e]!]!; j <= p; j++, at += m) {
        w[j]! -= scaled * withArms[at]!;
      }
    }
    const perArm = this.#perArm;
    perArm.fill(0, 0, m);
    let total = 0;
    for (let c = 0; c < cells; c++) {
      perArm[ownArm[own + c]!]! += w[c]!;
      total += w[c]!;
    }
    let through = throughGrower * total;
    for (let e = from; e < to; e++)
      through += ratios.growerArm * entryBoxes[e]! * perArm[ownArm[own + entryColumn[e]!]!]!;
    for (let j = 0; j <= p; j++) w[j]! *= kept;
    this.traces[0]! += kept * (n - kept * through);
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
