import { groupBy } from "./grouping";
import { canBeShown, type Figure, MINIMUM } from "./suppression";

/** One box of a cut, as its figures read it. A box has one grower and one arm for good. */
export interface CutBox {
  /** Names the box in every cut. */
  readonly key: string;
  readonly grower: string;
  readonly arm: string;
  /** Where it counts: its arm's figures are given by each of these. */
  readonly band: string;
  readonly region: string;
  readonly season: string;
  readonly warmth: string;
  /** What is known of it, by the same measures in all boxes; "" where nothing is. */
  readonly told: Readonly<Record<string, string>>;
}

/** By what a recipe's figures are given. */
const PLACES = ["band", "region", "season", "warmth"] as const;
type Place = Pick<CutBox, (typeof PLACES)[number]>;

/** A box in all cuts, undefined where it isn't in one; the very same object where it is as it is now. */
export interface Course {
  /** In the cuts shown, oldest first. */
  readonly shown: readonly (CutBox | undefined)[];
  readonly latest: CutBox | undefined;
  readonly now: CutBox | undefined;
}

/** Where boxes of one arm tell something else in a measure, or tell it elsewhere, by places that all alike. */
export type Changes = ReadonlyMap<string, PlaceOfChanges>;
interface PlaceOfChanges {
  readonly place: Place;
  /** As many as say whether the minimum is reached. */
  readonly households: Set<string>;
  boxes: number;
}

/** For each cut shown and each measure, what these boxes, of one arm and at least one, would change. */
export function againstShown(
  courses: readonly Course[],
  measures: readonly string[],
  chosen: (course: Course) => CutBox | undefined,
): readonly (readonly Changes[])[] {
  return courses[0]!.shown.map((_, cut) => {
    const changes = measures.map(() => new Map<string, PlaceOfChanges>());
    for (const course of courses) addChanges(changes, measures, course.shown[cut], chosen(course));
    return changes;
  });
}

function addChanges(
  changes: readonly Map<string, PlaceOfChanges>[],
  measures: readonly string[],
  was: CutBox | undefined,
  is: CutBox | undefined,
): void {
  if (was === is) return;
  const isMoved = was !== undefined && is !== undefined && !isSamePlace(was, is);
  measures.forEach((measure, i) => {
    const [told, tells] = [was?.told[measure] ?? "", is?.told[measure] ?? ""];
    if (told === tells && !isMoved) return;
    // One change where it is now; where it was, too, if it tells nothing now or tells it elsewhere.
    if (told !== "" && (tells === "" || isMoved)) addChange(changes[i]!, was!);
    if (tells !== "") addChange(changes[i]!, is!);
  });
}

function addChange(changes: Map<string, PlaceOfChanges>, box: CutBox): void {
  const key = JSON.stringify([box.band, box.region, box.season, box.warmth]);
  let at = changes.get(key);
  if (!at) {
    at = { place: box, households: new Set(), boxes: 0 };
    changes.set(key, at);
  }
  at.boxes++;
  if (at.households.size < MINIMUM.households) at.households.add(box.grower);
}

/** Whether changes of one arm's boxes in one measure may all be seen by climate group, region, season and warmth. */
export function hidesNothing(parts: readonly Changes[]): boolean {
  const changes = new Map<string, PlaceOfChanges>();
  for (const [key, { place, households, boxes }] of parts.flatMap((part) => [...part])) {
    const known = changes.get(key);
    changes.set(key, {
      place,
      households: new Set([...(known?.households ?? []), ...households]),
      boxes: boxes + (known?.boxes ?? 0),
    });
  }
  const atoms = [...changes.values()];
  const figures = PLACES.flatMap((by): Figure[] =>
    [...groupBy([...atoms.keys()], (atom) => atoms[atom]!.place[by])].map(([key, members]) => ({
      key: `${by} ${key}`,
      atoms: members,
      worth: 0,
    })),
  );
  return canBeShown(atoms, figures, new Set());
}

/** Whether a box tells the same in the same places. */
export function alike(a: CutBox | undefined, b: CutBox | undefined): boolean {
  if (a === b) return true;
  if (a === undefined || b === undefined || !isSamePlace(a, b)) return false;
  for (const measure in a.told) if (a.told[measure] !== b.told[measure]) return false;
  return true;
}

function isSamePlace(a: Place, b: Place): boolean {
  return a.band === b.band && a.region === b.region && a.season === b.season && a.warmth === b.warmth;
}
