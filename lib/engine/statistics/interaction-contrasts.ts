/** Where a cell of the table arm × band stands. */
export interface Cell {
  readonly arm: number;
  readonly band: number;
}

/** What is left of a unit vector or an indicator is a sizeable share of it or rounding: anything this small is. */
const ZERO = 1e-9;

/**
 * Contrasts of the cells that are all zero exactly when arms and bands add up: an orthonormal basis (one contrast per
 * row, a weight per cell) of what the model arm + band leaves of the cells, however many of the table are missing.
 * Empty where there is no interaction to be had. Gram & Schmidt's process, twice over; cost is cubic in the cells.
 */
export function interactionContrasts(cells: readonly Cell[]): Float64Array[] {
  const basis: Float64Array[] = [];
  const add = (vector: Float64Array): void => {
    const before = lengthOf(vector);
    for (let pass = 0; pass < 2; pass++) for (const own of basis) takeOut(vector, own);
    const after = lengthOf(vector);
    if (after > ZERO * before) basis.push(vector.map((x) => x / after));
  };
  const indicator = (holds: (cell: Cell, place: number) => boolean): Float64Array =>
    Float64Array.from(cells, (cell, i) => Number(holds(cell, i)));
  for (const a of new Set(cells.map(({ arm }) => arm))) add(indicator(({ arm }) => arm === a));
  for (const b of new Set(cells.map(({ band }) => band))) add(indicator(({ band }) => band === b));
  const additive = basis.length;
  for (let i = 0; basis.length < cells.length && i < cells.length; i++)
    add(indicator((_, place) => place === i));
  return basis.slice(additive);
}

function takeOut(vector: Float64Array, unit: Float64Array): void {
  let along = 0;
  for (let i = 0; i < vector.length; i++) along += vector[i]! * unit[i]!;
  for (let i = 0; i < vector.length; i++) vector[i]! -= along * unit[i]!;
}

function lengthOf(vector: Float64Array): number {
  return Math.sqrt(vector.reduce((sum, x) => sum + x * x, 0));
}
