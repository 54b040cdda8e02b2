import { symmetricEigen } from "./symmetric";

/** Where a cell of the table arm × band stands. */
export interface Cell {
  readonly arm: number;
  readonly band: number;
}

/** Eigenvalues of the additive model's cross products are whole numbers' worth: anything this small is rounding. */
const ZERO = 1e-9;

/**
 * Contrasts of the cells that are all zero exactly when arms and bands add up: an orthonormal basis (one contrast per
 * row, a weight per cell) of what the model arm + band leaves of the cells, however many of the table are missing.
 * Empty where there is no interaction to be had. Cost is cubic in the cells.
 */
export function interactionContrasts(cells: readonly Cell[]): number[][] {
  const same = cells.map((a) => cells.map((b) => Number(a.arm === b.arm) + Number(a.band === b.band)));
  const { values, vectors } = symmetricEigen(same);
  return vectors.filter((_, j) => values[j]! < ZERO).map((vector) => [...vector]);
}
