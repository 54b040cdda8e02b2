import { againstShown, alike, type Course, type CutBox, hidesNothing } from "./cut-changes";
import { byCodeUnit, groupBy } from "./grouping";

export interface CutMeasures {
  /** Those that every figure by arm and group rests on: a box's change of one of them waits or is shown whole. */
  readonly main: readonly string[];
  /** Those that add figures of their own: each is shown as it is now, or for all boxes as it was. */
  readonly others: readonly string[];
}

/**
 * The boxes whose figures may be shown after those of `earlier` cuts, oldest first, so that no two of the shown cuts
 * give small changes away: what one says more than another is a figure like any other, and must rest on as many
 * households and boxes, in each group and in whatever adding and subtracting groups can tell. Boxes of an arm,
 * climate group and region that changed in too few stay as the latest earlier cut has them (a new box out of it, a
 * changed one as it was) until enough have changed: those of the fewest households wait first.
 *
 * Every cut of `earlier` must have been shown by this rule; without any, all of `now` may be shown. Time grows linearly
 * with boxes and cuts.
 * @returns `now` itself where nothing has to wait; else boxes of the latest earlier cut in its order, then new ones
 */
export function nextCut(
  earlier: readonly (readonly CutBox[])[],
  now: readonly CutBox[],
  measures: CutMeasures,
): readonly CutBox[] {
  if (earlier.length === 0) return now;
  const courses = coursesOf(earlier, now);
  const waiting = waitingForMain(courses, measures.main);
  const cut = courses.flatMap((course) => {
    const box = waiting.has(course) ? course.latest : course.now;
    return box ? [{ course, box }] : [];
  });
  const former = waitingMeasures(cut, measures.others);
  const boxes = cut.map(({ course, box }) => withFormer(box, course.latest, former));
  const isAll = boxes.length === now.length && boxes.every((box, i) => alike(box, cut[i]!.course.now));
  return isAll ? now : boxes;
}

function coursesOf(earlier: readonly (readonly CutBox[])[], now: readonly CutBox[]): Course[] {
  const cuts = earlier.map(byKey);
  const current = byKey(now);
  const courseOf = (key: string): Course => {
    const own = current.get(key);
    const shown = cuts.map((cut) => {
      const was = cut.get(key);
      return alike(was, own) ? own : was;
    });
    return { shown, latest: shown.at(-1), now: own };
  };
  const latest = cuts.at(-1)!;
  const courses = earlier.at(-1)!.map(({ key }) => courseOf(key));
  for (const { key } of now) if (!latest.has(key)) courses.push(courseOf(key));
  return courses;
}

/** Boxes to be shown as the latest cut has them, lest main measures give something away. */
function waitingForMain(courses: readonly Course[], main: readonly string[]): ReadonlySet<Course> {
  const boxOf = ({ now, latest }: Course): CutBox => (now ?? latest)!;
  const waiting = new Set<Course>();
  for (const own of groupBy(courses, (course) => boxOf(course).arm).values()) {
    const changed = own.filter(({ latest, now }) => latest !== now);
    const groups = groupBy(changed, (course) => JSON.stringify([boxOf(course).band, boxOf(course).region]));
    if (groups.size === 0) continue;
    const households = (group: readonly Course[]): number =>
      new Set(group.map((course) => boxOf(course).grower)).size;
    const fewestFirst = [...groups]
      .sort(([a, x], [b, y]) => households(x) - households(y) || byCodeUnit(a, b))
      .map(([, group]) => ({
        group,
        taken: againstShown(group, main, ({ now }) => now),
        kept: againstShown(group, main, ({ latest }) => latest),
      }));
    const settled = own.filter(({ latest, now }) => latest === now);
    const rest = settled.length > 0 ? [againstShown(settled, main, ({ now }) => now)] : [];
    const held = waitingAmong(fewestFirst, (some) => {
      const parts = [...rest, ...fewestFirst.map((each) => (some.has(each) ? each.kept : each.taken))];
      return parts[0]!.every((changes, cut) =>
        changes.every((_, measure) => hidesNothing(parts.map((part) => part[cut]![measure]!))),
      );
    });
    for (const { group } of held) for (const course of group) waiting.add(course);
  }
  return waiting;
}

/** Changes wait one after the other until the others may be shown; then the last of them are let go again where they may. */
function waitingAmong<T>(
  changes: readonly T[],
  isSafe: (waiting: ReadonlySet<T>) => boolean,
): ReadonlySet<T> {
  const waiting = new Set<T>();
  for (const change of changes) {
    if (isSafe(waiting)) break;
    waiting.add(change);
  }
  for (const change of [...waiting].reverse()) {
    waiting.delete(change);
    if (!isSafe(waiting)) waiting.add(change);
  }
  return waiting;
}

/** Measures to be shown as the latest cut has them. */
function waitingMeasures(
  cut: readonly { readonly course: Course; readonly box: CutBox }[],
  others: readonly string[],
): string[] {
  const boxes = new Map(cut.map(({ course, box }) => [course, box]));
  const byArm = [...groupBy([...boxes.keys()], (course) => boxes.get(course)!.arm).values()];
  const changes = byArm.flatMap((own) => againstShown(own, others, (course) => boxes.get(course)));
  return others.filter((_, measure) => changes.some((each) => !hidesNothing([each[measure]!])));
}

function withFormer(box: CutBox, latest: CutBox | undefined, measures: readonly string[]): CutBox {
  if (measures.length === 0) return box;
  const told = { ...box.told };
  for (const measure of measures) told[measure] = latest?.told[measure] ?? "";
  return { ...box, told };
}

function byKey(boxes: readonly CutBox[]): Map<string, CutBox> {
  return new Map(boxes.map((box) => [box.key, box]));
}
