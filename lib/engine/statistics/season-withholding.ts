import { groupBy } from "./grouping";
import type { PooledTable } from "./pool-columns";
import type { PoolExtras } from "./pool-extras";
import type { PoolTable } from "./pool-table";
import { canBeShown, type Figure } from "./suppression";

/** A recipe's boxes of a climate group or a region, or all of them. */
export interface ArmSlice {
  readonly arm: string;
  readonly band?: string;
  readonly region?: string;
}

/**
 * Seasons as a published analysis may know them. A recipe's means by season stand beside its means by climate group and
 * by region: together they must show nothing small and give nothing small away by subtraction, nor anything held
 * back already. Seasons are forgotten (−1) for a recipe, the smallest first, until that is so. Recipes have no box in
 * common, so each is looked at by itself.
 * @param isShown which cells the published analysis rests on
 * @param slices where the recipes' growth is given already, or held back
 * @returns the very same seasons when nothing has to be forgotten
 */
export function showableSeason(
  { table, extras: { season } }: PooledTable,
  isShown: (cell: { readonly band: string; readonly arm: string }) => boolean,
  slices: readonly (ArmSlice & { readonly isHidden: boolean })[],
): PoolExtras["season"] {
  if (!season) return null;
  const index = season.index.slice();
  for (const [arm, atoms] of atomsByArm(table, season)) {
    const places = [...atoms.keys()];
    const figureOf = (key: string, isOfIt: (atom: SeasonAtom) => boolean): Figure => ({
      key,
      atoms: places.filter((place) => isOfIt(atoms[place]!)),
      worth: 0,
    });
    const own = slices.filter((slice) => slice.arm === arm);
    const given = own.map((slice, i) => figureOf(`slice ${i}`, (atom) => isIn(slice, atom)));
    const hidden = new Set(given.filter((_, i) => own[i]!.isHidden).map(({ key }) => key));
    const seasons = season.labels
      .map((label, s) => figureOf(label, ({ band, inSeason }) => inSeason === s && isShown({ band, arm })))
      .sort((a, b) => boxesOf(atoms, a) - boxesOf(atoms, b));
    while (seasons.length > 0 && !canBeShown(atoms, [...given, ...seasons], hidden)) {
      for (const place of seasons.shift()!.atoms) for (const row of atoms[place]!.rows) index[row] = -1;
    }
  }
  return index.every((known, row) => known === season.index[row]) ? season : { ...season, index };
}

/** Measured boxes alike in region, climate group and season. */
interface SeasonAtom {
  readonly band: string;
  readonly region: string | null;
  /** Place among the seasons' labels, −1 unknown. */
  readonly inSeason: number;
  readonly rows: readonly number[];
  readonly households: ReadonlySet<string>;
  readonly boxes: number;
}

function atomsByArm(
  { columns, region }: PoolTable,
  season: NonNullable<PoolExtras["season"]>,
): Map<string, SeasonAtom[]> {
  const { labels, band, arm, grower, outcome } = columns;
  const measured = [...outcome.keys()].filter((row) => !Number.isNaN(outcome[row]!));
  const regionOf = (row: number): number => region?.index[row] ?? -1;
  const byArm = groupBy(measured, (row) => labels.arm[arm[row]!]!);
  return new Map(
    [...byArm].map(([own, rows]) => {
      const atoms = groupBy(rows, (row) => `${band[row]} ${regionOf(row)} ${season.index[row]}`);
      return [
        own,
        [...atoms.values()].map((members) => {
          const [first] = members as [number];
          return {
            band: labels.band[band[first]!]!,
            region: region?.labels[regionOf(first)] ?? null,
            inSeason: season.index[first]!,
            rows: members,
            households: new Set(members.map((row) => labels.grower[grower[row]!]!)),
            boxes: members.length,
          };
        }),
      ];
    }),
  );
}

function boxesOf(atoms: readonly SeasonAtom[], { atoms: places }: Figure): number {
  return places.reduce((sum, place) => sum + atoms[place]!.boxes, 0);
}

function isIn({ band, region }: ArmSlice, atom: SeasonAtom): boolean {
  return (band === undefined || band === atom.band) && (region === undefined || region === atom.region);
}
