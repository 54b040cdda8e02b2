import type { BoxColumn, SetColumn, StoredBoxes, StoredCut, StoredLook } from "@/lib/data/pool-boxes";
import { MINIMUM_SEASONS, MINIMUM_WARMTHS } from "@/lib/engine/statistics/analysis-standing";
import type { CutBox } from "@/lib/engine/statistics/cut-changes";
import { groupBy } from "@/lib/engine/statistics/grouping";
import { nextCut } from "@/lib/engine/statistics/successive-cuts";
import { MINIMUM } from "@/lib/engine/statistics/suppression";
import { seasonWhere, warmthWhere } from "./pool-data";
import { eachOf, linesOf, setLines } from "./pool-lines";

/** What a box has for good, where it counts (and the day, which decides its season), and what is told of it. */
const MEASURES = {
  main: ["lost", "take", "clean"],
  others: ["usable", "cooked", "days", "reused", "looks"],
} as const;
const SET_COLUMNS = ["grower", "outing", "band", "region", "grains", "stood", "weather", "reused"] as const;
const BOX_COLUMNS = ["arm", "box", "lost", "take", "clean", "days", "cooked", "usable"] as const;
/** How the columns say that nothing is known. */
const NOTHING: Partial<Record<BoxColumn | SetColumn, string>> = { clean: "-1", reused: "0" };

/**
 * The boxes that a trial's published figures may be worked out from after earlier ones: see `nextCut`. The very same
 * cut where all of it may be.
 * @param earlier what earlier published figures were worked out from, oldest first
 */
export function publishableCut(now: StoredCut, earlier: readonly StoredCut[]): StoredCut {
  if (earlier.length === 0) return now;
  const standing = comparedIn(now);
  const boxes = boxesOf(now, standing);
  const shown = nextCut(
    earlier.map((cut) => boxesOf(cut, standing)),
    boxes,
    MEASURES,
  );
  return shown === boxes ? now : cutOf(shown);
}

/** Seasons and warmths that figures may be given by. */
interface Compared {
  readonly seasons: ReadonlySet<string>;
  readonly warmths: ReadonlySet<string>;
}

/** Earlier cuts compared no others: growers only come to them. */
function comparedIn({ boxes }: StoredCut): Compared {
  const growers = linesOf(boxes.grower);
  const among = (groups: readonly string[], atLeast: number): ReadonlySet<string> => {
    const setsOf = groupBy([...groups.keys()], (set) => groups[set]!);
    const ample = [...setsOf]
      .filter(
        ([group, sets]) =>
          group !== "" && new Set(sets.map((set) => growers[set])).size >= MINIMUM.households,
      )
      .map(([group]) => group);
    return new Set(ample.length >= atLeast ? ample : []);
  };
  const { seasons, warmths } = standingOf(boxes);
  return { seasons: among(seasons, MINIMUM_SEASONS), warmths: among(warmths, MINIMUM_WARMTHS) };
}

/** By set. */
function standingOf({ stood, weather }: StoredBoxes) {
  const days = linesOf(stood);
  return {
    seasons: eachOf(days, seasonWhere),
    warmths: linesOf(weather).map((read, set) => warmthWhere(days[set]!, read)),
  };
}

function boxesOf({ boxes, looks }: StoredCut, compared: Compared): CutBox[] {
  const looksAt = groupBy(looks, ({ outing, box }) => `${outing} ${box}`);
  const { seasons, warmths } = standingOf(boxes);
  const ofSet = linesBy(SET_COLUMNS, boxes);
  const ofBox = linesBy(BOX_COLUMNS, boxes);
  const setOf = setLines(boxes);
  return ofBox.box.map((box, row): CutBox => {
    const set = setOf[row]!;
    const outing = ofSet.outing[set]!;
    const key = `${outing} ${box}`;
    const own = looksAt.get(key);
    const [season, warmth] = [seasons[set]!, warmths[set]!];
    // Members by name: objects put together in a loop or by spreading are slow to make and to read.
    return {
      key,
      grower: ofSet.grower[set]!,
      arm: ofBox.arm[row]!,
      band: ofSet.band[set]!,
      region: ofSet.region[set]!,
      season: compared.seasons.has(season) ? season : "",
      warmth: compared.warmths.has(warmth) ? warmth : "",
      told: {
        grower: ofSet.grower[set]!,
        outing,
        band: ofSet.band[set]!,
        region: ofSet.region[set]!,
        grains: ofSet.grains[set]!,
        stood: ofSet.stood[set]!,
        weather: ofSet.weather[set]!,
        reused: ofSet.reused[set]!,
        arm: ofBox.arm[row]!,
        box,
        lost: ofBox.lost[row]!,
        take: ofBox.take[row]!,
        clean: ofBox.clean[row]!,
        days: ofBox.days[row]!,
        cooked: ofBox.cooked[row]!,
        usable: ofBox.usable[row]!,
        looks: own ? JSON.stringify(own) : "",
      },
    };
  });
}

/** The lines of some columns, "" where nothing is known. */
function linesBy<Column extends BoxColumn | SetColumn>(columns: readonly Column[], boxes: StoredBoxes) {
  const lines = {} as Record<Column, string[]>;
  for (const column of columns)
    lines[column] = linesOf(boxes[column]).map((line) => (line === NOTHING[column] ? "" : line));
  return lines;
}

function cutOf(boxes: readonly CutBox[]): StoredCut {
  const isOfSet = (box: CutBox, other: CutBox | undefined): boolean =>
    other !== undefined && SET_COLUMNS.every((column) => box.told[column] === other.told[column]);
  const firsts = [...boxes.keys()].filter((at) => !isOfSet(boxes[at]!, boxes[at - 1]));
  const sizes = firsts.map((first, set) => (firsts[set + 1] ?? boxes.length) - first);
  const columnOf = (column: BoxColumn | SetColumn, of: readonly CutBox[]): [string, string | null] => [
    column,
    of.length === 0 ? null : of.map(({ told }) => told[column] || (NOTHING[column] ?? "")).join("\n"),
  ];
  const sets = firsts.map((first) => boxes[first]!);
  return {
    boxes: {
      ...Object.fromEntries([
        ...SET_COLUMNS.map((column) => columnOf(column, sets)),
        ...BOX_COLUMNS.map((column) => columnOf(column, boxes)),
      ]),
      sizes: boxes.length === 0 ? null : sizes.join("\n"),
    } as StoredBoxes,
    looks: boxes.flatMap(({ told }) => (told.looks ? (JSON.parse(told.looks) as StoredLook[]) : [])),
  };
}
