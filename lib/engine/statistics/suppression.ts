import { byCodeUnit } from "./grouping";
import { fingerprints, RowSpan, vanishingWeights } from "./row-span";

/** The smallest part of a table: every figure is a sum over some of these. */
export interface Atom {
  /** The households with boxes in it. */
  readonly households: ReadonlySet<string>;
  /** More than 0. */
  readonly boxes: number;
}

/** A figure that might be published: the atoms it adds up. */
export interface Figure {
  readonly key: string;
  /** Places in the list of atoms. */
  readonly atoms: readonly number[];
  /** How much readers would miss it: of two figures that could be hidden the one worth less is. */
  readonly worth: number;
}

/** No published figure, and none that can be worked out, rests on fewer. */
export const MINIMUM = { households: 3, boxes: 5 } as const;

/**
 * The keys of figures to hide, so that nothing small is shown or can be worked out by adding and subtracting what
 * is shown.
 *
 * Hidden first: what is `alreadyHidden`, and figures under the minimum. A figure is a 0/1 vector over the atoms;
 * what can be worked out is the span of the published ones. While a protected vector lies in the span, a
 * published figure it is made of is hidden: the least (by worth, then by boxes) that takes it out of the span, or
 * the least at all. At the end figures hidden only for others' sake are shown again, the most wanted first, where
 * that is safe, so that no more is hidden than need be. Protected are
 * - every hidden figure;
 * - every vector, whatever its signs, on atoms that together hold at most two households;
 * - every union of atoms with at most four boxes.
 * Bounds from knowing that counts are not negative are beyond this: it guards against subtraction.
 * Figures without atoms say "no boxes" and are left alone.
 */
export function figuresToHide(
  atoms: readonly Atom[],
  figures: readonly Figure[],
  alreadyHidden: ReadonlySet<string> = new Set(),
): Set<string> {
  const filled = filledAmong(figures, atoms).sort(
    (a, b) =>
      a.worth - b.worth || boxesIn(atoms, a.atoms) - boxesIn(atoms, b.atoms) || byCodeUnit(a.key, b.key),
  );
  const hidden = new Set(alreadyHidden);
  for (const figure of filled) if (isSmall(atoms, figure.atoms)) hidden.add(figure.key);
  const forOthers: string[] = [];
  for (let given = givenAway(atoms, filled, hidden); given; given = givenAway(atoms, filled, hidden)) {
    const key = leastToHide(given, filled, hidden);
    hidden.add(key);
    forOthers.push(key);
  }
  const mostWantedFirst = filled
    .map(({ key }) => key)
    .filter((key) => forOthers.includes(key))
    .reverse();
  for (const key of mostWantedFirst) {
    hidden.delete(key);
    if (givenAway(atoms, filled, hidden)) hidden.add(key);
  }
  return hidden;
}

/** Whether figures but the `hidden` ones can be shown: none is small, and they give nothing protected away. */
export function canBeShown(
  atoms: readonly Atom[],
  figures: readonly Figure[],
  hidden: ReadonlySet<string>,
): boolean {
  const filled = filledAmong(figures, atoms);
  return (
    filled.every((figure) => hidden.has(figure.key) || !isSmall(atoms, figure.atoms)) &&
    !givenAway(atoms, filled, hidden)
  );
}

type Row = Figure & { readonly vector: readonly number[] };

function filledAmong(figures: readonly Figure[], atoms: readonly Atom[]): Row[] {
  return figures
    .filter((figure) => figure.atoms.length > 0)
    .map((figure) => ({ ...figure, vector: indicator(figure.atoms, atoms.length) }));
}

/** A protected vector that the published figures give away, or null. */
function givenAway(
  atoms: readonly Atom[],
  figures: readonly Row[],
  hidden: ReadonlySet<string>,
): readonly number[] | null {
  const published = figures.filter(({ key }) => !hidden.has(key));
  // Atoms in no published figure can't be part of anything the figures give away.
  const shown = [...new Set(published.flatMap((figure) => figure.atoms))];
  if (published.length === figures.length && !shown.some((atom) => isSmall(atoms, [atom]))) return null;
  const span = new RowSpan(
    published.map(({ vector }) => vector),
    atoms.length,
  );
  const secret = figures.find(({ key, vector }) => hidden.has(key) && span.rowsMaking(vector));
  if (secret) return secret.vector;
  const checks = span.columnChecks();
  return vectorOnFewHouseholds(atoms, shown, checks) ?? vectorOnFewBoxes(atoms, span, shown, checks);
}

/** `figures` go from the least wanted up. */
function leastToHide(
  vector: readonly number[],
  figures: readonly Row[],
  hidden: ReadonlySet<string>,
): string {
  const published = figures.filter(({ key }) => !hidden.has(key));
  const makersAmong = (rows: readonly Row[]): number[] | null =>
    new RowSpan(
      rows.map((row) => row.vector),
      vector.length,
    ).rowsMaking(vector);
  const makers = makersAmong(published)!.map((place) => published[place]!);
  const essential = makers.find((maker) => !makersAmong(published.filter((row) => row !== maker)));
  return (essential ?? makers[0]!).key;
}

/** Whether the atoms together rest on fewer households or boxes than may be shown. */
export function isSmall(atoms: readonly Atom[], members: readonly number[]): boolean {
  const households = new Set(members.flatMap((atom) => [...atoms[atom]!.households]));
  return households.size < MINIMUM.households || boxesIn(atoms, members) < MINIMUM.boxes;
}

/** A vector of the span that only atoms of some two households carry, or null. */
function vectorOnFewHouseholds(
  atoms: readonly Atom[],
  shown: readonly number[],
  checks: readonly Float64Array[],
): number[] | null {
  const thin = shown.filter((atom) => atoms[atom]!.households.size < MINIMUM.households);
  const households = [...new Set(thin.flatMap((atom) => [...atoms[atom]!.households]))].sort(byCodeUnit);
  for (const [i, first] of households.entries()) {
    for (const second of households.slice(i)) {
      const theirs = thin.filter((atom) =>
        [...atoms[atom]!.households].every((household) => household === first || household === second),
      );
      const weights = vanishingWeights(theirs.map((atom) => checks[atom]!));
      if (!weights) continue;
      const vector = new Array<number>(atoms.length).fill(0);
      theirs.forEach((atom, place) => {
        vector[atom] = weights[place]!;
      });
      return vector;
    }
  }
  return null;
}

/** A union of atoms with few boxes that lies in the span, or null. */
function vectorOnFewBoxes(
  atoms: readonly Atom[],
  span: RowSpan,
  shown: readonly number[],
  checks: readonly Float64Array[],
): number[] | null {
  const few = shown.filter((atom) => atoms[atom]!.boxes < MINIMUM.boxes);
  const { values, modulus } = fingerprints(few.map((atom) => checks[atom]!));

  /** Adds atoms from place `from` on while boxes remain; a union whose fingerprint vanishes is looked at closely. */
  function search(from: number, boxesLeft: number, sum: number, members: readonly number[]): number[] | null {
    for (let place = from; place < few.length; place++) {
      const atom = few[place]!;
      const left = boxesLeft - atoms[atom]!.boxes;
      if (left < 0) continue;
      const total = (sum + values[place]!) % modulus;
      const union = [...members, atom];
      if (total === 0 && span.rowsMaking(indicator(union, atoms.length)))
        return indicator(union, atoms.length);
      const found = left > 0 ? search(place + 1, left, total, union) : null;
      if (found) return found;
    }
    return null;
  }
  return search(0, MINIMUM.boxes - 1, 0, []);
}

function boxesIn(atoms: readonly Atom[], members: readonly number[]): number {
  return members.reduce((sum, atom) => sum + atoms[atom]!.boxes, 0);
}

function indicator(members: readonly number[], length: number): number[] {
  const vector = new Array<number>(length).fill(0);
  for (const atom of members) vector[atom] = 1;
  return vector;
}
