import { byCodeUnit, groupBy } from "./grouping";
import { canBeShown, type Figure } from "./suppression";

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

export interface CutMeasures {
  /** Those that every figure by arm and group rests on: a box's change of one of them waits or is shown whole. */
  readonly main: readonly string[];
  /** Those that add figures of their own: each is shown as it is now, or for all boxes as it was. */
  readonly others: readonly string[];
}

/** By what a recipe's figures are given. */
const PLACES = ["band", "region", "season", "warmth"] as const;

type Cut = ReadonlyMap<string, CutBox>;

/**
 * The boxes whose figures may be shown after those of `earlier` cuts, oldest first, so that no two of the shown cuts
 * give small changes away: what one says more than another is a figure like any other, and must rest on as many
 * households and boxes, in each group and in whatever adding and subtracting groups can tell. Boxes of an arm,
 * climate group and region that changed in too few stay as the latest earlier cut has them (a new box out of it, a
 * changed one as it was) until enough have changed: those of the fewest households wait first.
 *
 * Every cut of `earlier` must have been shown by this rule; without any, all of `now` may be shown.
 * @returns `now` itself where nothing has to wait
 */
export function nextCut(
  earlier: readonly (readonly CutBox[])[],
  now: readonly CutBox[],
  measures: CutMeasures,
): readonly CutBox[] {
  const latest = earlier.at(-1);
  if (!latest) return now;
  const shown = earlier.map(byKey);
  const current = byKey(now);
  const main = withMainChanges(shown, byKey(latest), current, measures.main);
  const boxes = withOtherChanges(shown, byKey(latest), main, measures.others);
  const isAll = boxes.length === now.length && boxes.every((box) => alike(box, current.get(box.key)));
  return isAll ? now : boxes;
}

function withMainChanges(shown: readonly Cut[], latest: Cut, now: Cut, main: readonly string[]): CutBox[] {
  const keys = [...new Set([...latest.keys(), ...now.keys()])];
  const boxAt = (key: string): CutBox => (now.get(key) ?? latest.get(key))!;
  return [...groupBy(keys, (key) => boxAt(key).arm).values()].flatMap((own) => {
    const changes = groupBy(
      own.filter((key) => !alike(latest.get(key), now.get(key))),
      (key) => JSON.stringify([boxAt(key).band, boxAt(key).region]),
    );
    const households = (change: readonly string[]): number =>
      new Set(change.map((key) => boxAt(key).grower)).size;
    const fewestFirst = [...changes].sort(
      ([a, x], [b, y]) => households(x) - households(y) || byCodeUnit(a, b),
    );
    const boxesWithout = (waiting: ReadonlySet<string>): CutBox[] =>
      own.flatMap((key) => (waiting.has(key) ? latest : now).get(key) ?? []);
    const waiting = waitingAmong(
      fewestFirst.map(([, change]) => change),
      (some) => {
        const next = byKey(boxesWithout(some));
        return shown.every((cut) => mayFollow(changedBoxes(cut, own, next), main));
      },
    );
    return boxesWithout(waiting);
  });
}

/** Changes wait one after the other until the others may be shown; then the last of them are let go again where they may. */
function waitingAmong(
  changes: readonly (readonly string[])[],
  isSafe: (waiting: ReadonlySet<string>) => boolean,
): ReadonlySet<string> {
  const waiting = new Set<string>();
  const held: (readonly string[])[] = [];
  for (const change of changes) {
    if (isSafe(waiting)) break;
    held.push(change);
    for (const key of change) waiting.add(key);
  }
  for (const change of held.reverse()) {
    for (const key of change) waiting.delete(key);
    if (isSafe(waiting)) continue;
    for (const key of change) waiting.add(key);
  }
  return waiting;
}

function withOtherChanges(
  shown: readonly Cut[],
  latest: Cut,
  boxes: readonly CutBox[],
  others: readonly string[],
): CutBox[] {
  const own = byKey(boxes);
  const changed = [...groupBy(boxes, ({ arm }) => arm).values()].flatMap((of) =>
    shown.map((cut) =>
      changedBoxes(
        cut,
        of.map(({ key }) => key),
        own,
      ),
    ),
  );
  const waiting = others.filter((measure) => !changed.every((pairs) => mayFollow(pairs, [measure])));
  if (waiting.length === 0) return [...boxes];
  return boxes.map((box) => {
    const former = Object.fromEntries(
      waiting.map((measure) => [measure, latest.get(box.key)?.told[measure] ?? ""]),
    );
    return { ...box, told: { ...box.told, ...former } };
  });
}

/** A box that tells something else, or that tells it elsewhere, at one of its places. */
type Change = Pick<CutBox, "grower" | (typeof PLACES)[number]>;

/** Boxes as two cuts have them, where they differ. */
type Pair = readonly [was: CutBox | undefined, is: CutBox | undefined];

function changedBoxes(before: Cut, keys: readonly string[], after: Cut): Pair[] {
  return keys.map((key): Pair => [before.get(key), after.get(key)]).filter(([was, is]) => !alike(was, is));
}

/** Whether a cut with these changes, all of one arm, may be shown after the other. */
function mayFollow(changed: readonly Pair[], measures: readonly string[]): boolean {
  return measures.every((measure) => hidesNothing(changesOf(changed, measure)));
}

function changesOf(changed: readonly Pair[], measure: string): Change[] {
  return changed.flatMap(([was, is]) => {
    const [told, tells] = [was?.told[measure] ?? "", is?.told[measure] ?? ""];
    const isMoved = was && is && !isSamePlace(was, is);
    if (told === tells && !isMoved) return [];
    const places = [...(was && told !== "" ? [was] : []), ...(is && tells !== "" ? [is] : [])];
    return places.length === 2 && !isMoved ? places.slice(1) : places;
  });
}

/** Whether changes of one arm's boxes may be seen by climate group, region and season. */
function hidesNothing(changes: readonly Change[]): boolean {
  const atoms = [...groupBy(changes, placeOf).values()].map((own) => ({
    ...own[0]!,
    households: new Set(own.map(({ grower }) => grower)),
    boxes: own.length,
  }));
  const figures = PLACES.flatMap((by): Figure[] =>
    [...groupBy([...atoms.keys()], (place) => atoms[place]![by])].map(([key, places]) => ({
      key: `${by} ${key}`,
      atoms: places,
      worth: 0,
    })),
  );
  return canBeShown(atoms, figures, new Set());
}

function alike(a: CutBox | undefined, b: CutBox | undefined): boolean {
  return (
    a === b ||
    (a !== undefined &&
      b !== undefined &&
      isSamePlace(a, b) &&
      Object.keys(a.told).every((measure) => a.told[measure] === b.told[measure]))
  );
}

function isSamePlace(a: Change, b: Change): boolean {
  return PLACES.every((by) => a[by] === b[by]);
}

function placeOf(change: Change): string {
  return JSON.stringify(PLACES.map((by) => change[by]));
}

function byKey(boxes: readonly CutBox[]): Map<string, CutBox> {
  return new Map(boxes.map((box) => [box.key, box]));
}
