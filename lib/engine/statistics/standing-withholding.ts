import { groupBy } from "./grouping";
import type { PooledTable } from "./pool-columns";
import type { PoolExtras, RowGroups } from "./pool-extras";
import { canBeShown, type Figure, MINIMUM } from "./suppression";

/** A recipe's boxes of a climate group or a region, or all of them. */
export interface ArmSlice {
  readonly arm: string;
  readonly band?: string;
  readonly region?: string;
}

/** What boxes stood in. */
const STANDINGS = ["season", "warmth"] as const;
export type Standings = Pick<PoolExtras, (typeof STANDINGS)[number]>;

/**
 * What a published analysis may know of the seasons and the warmth boxes stood in. A recipe's means by these stand
 * beside its means by climate group and by region: together they must show nothing small and give nothing small away by
 * subtraction, nor anything held back already. Groups are forgotten (−1) for a recipe, the smallest first, until that
 * is so. Recipes have no box in common, so each is looked at by itself.
 * @param isShown which cells the published analysis rests on
 * @param slices where the recipes' growth is given already, or held back
 * @returns the very same groups where nothing has to be forgotten
 */
export function showableStandings(
  pooled: PooledTable,
  isShown: (cell: { readonly band: string; readonly arm: string }) => boolean,
  slices: readonly (ArmSlice & { readonly isHidden: boolean })[],
): Standings {
  const { season, warmth } = pooled.extras;
  const kept = { season: season?.index.slice(), warmth: warmth?.index.slice() };
  for (const [arm, atoms] of atomsByArm(pooled)) {
    const places = [...atoms.keys()];
    const figureOf = (key: string, isOfIt: (atom: StandingAtom) => boolean): Figure => ({
      key,
      atoms: places.filter((place) => isOfIt(atoms[place]!)),
      worth: 0,
    });
    const own = slices.filter((slice) => slice.arm === arm);
    const given = own.map((slice, i) => figureOf(`slice ${i}`, (atom) => isIn(slice, atom)));
    const hidden = new Set(given.filter((_, i) => own[i]!.isHidden).map(({ key }) => key));
    const standing = STANDINGS.flatMap((by) =>
      (pooled.extras[by]?.labels ?? []).map((label, group) => ({
        by,
        ...figureOf(`${by} ${label}`, (atom) => atom[by] === group && isShown({ band: atom.band, arm })),
      })),
    ).sort((a, b) => boxesOf(atoms, a) - boxesOf(atoms, b));
    while (standing.length > 0 && !canBeShown(atoms, [...given, ...standing], hidden)) {
      const { by, atoms: forgotten } = standing.shift()!;
      for (const place of forgotten) for (const row of atoms[place]!.rows) kept[by]![row] = -1;
    }
  }
  return { season: sameOr(season, kept.season), warmth: sameOr(warmth, kept.warmth) };
}

function sameOr(groups: RowGroups | null, index: Int32Array | undefined): RowGroups | null {
  if (!groups || !index) return null;
  return index.every((known, row) => known === groups.index[row]) ? groups : { ...groups, index };
}

/** Measured boxes alike in region, climate group and what they stood in. */
interface StandingAtom {
  readonly arm: string;
  readonly band: string;
  readonly region: string | null;
  /** Places among the labels, −1 unknown. */
  readonly season: number;
  readonly warmth: number;
  readonly rows: readonly number[];
  readonly households: ReadonlySet<string>;
  boxes: number;
}

type Groups = { readonly labels: readonly string[]; readonly index: Int32Array } | null;

function atomsByArm({
  table: { columns, region },
  extras: { season, warmth },
}: PooledTable): Map<string, StandingAtom[]> {
  const { n, labels, band, arm, grower, outcome } = columns;
  const ofRow = (groups: Groups, row: number): number => groups?.index[row] ?? -1;
  const steps = [region, season, warmth].map((groups) => (groups?.labels.length ?? 0) + 1);
  const found = new Map<number, StandingAtom & { rows: number[]; households: Set<string> }>();
  for (let row = 0; row < n; row++) {
    if (Number.isNaN(outcome[row]!)) continue;
    let key = arm[row]! * labels.band.length + band[row]!;
    [region, season, warmth].forEach((groups, i) => {
      key = key * steps[i]! + ofRow(groups, row) + 1;
    });
    let atom = found.get(key);
    if (!atom) {
      atom = {
        arm: labels.arm[arm[row]!]!,
        band: labels.band[band[row]!]!,
        region: region?.labels[ofRow(region, row)] ?? null,
        season: ofRow(season, row),
        warmth: ofRow(warmth, row),
        rows: [],
        households: new Set(),
        boxes: 0,
      };
      found.set(key, atom);
    }
    atom.rows.push(row);
    atom.boxes++;
    // Further households than the minimum change nothing.
    if (atom.households.size < MINIMUM.households) atom.households.add(labels.grower[grower[row]!]!);
  }
  return groupBy([...found.values()], (atom) => atom.arm);
}

function boxesOf(atoms: readonly StandingAtom[], { atoms: places }: Figure): number {
  return places.reduce((sum, place) => sum + atoms[place]!.boxes, 0);
}

function isIn({ band, region }: ArmSlice, atom: StandingAtom): boolean {
  return (band === undefined || band === atom.band) && (region === undefined || region === atom.region);
}
