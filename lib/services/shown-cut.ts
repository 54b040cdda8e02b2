import type { BoxColumn, StoredCut, StoredLook } from "@/lib/data/pool-boxes";
import { MINIMUM_SEASONS, MINIMUM_WARMTHS } from "@/lib/engine/statistics/analysis-standing";
import { groupBy } from "@/lib/engine/statistics/grouping";
import { type CutBox, nextCut } from "@/lib/engine/statistics/successive-cuts";
import { MINIMUM } from "@/lib/engine/statistics/suppression";
import { linesOf, seasonWhere, warmthWhere } from "./pool-data";

/** What a box has for good, where it counts (and the day, which decides its season), and what is told of it. */
const MEASURES = {
  main: ["lost", "take", "clean"],
  others: ["usable", "cooked", "days", "reused", "looks"],
} as const;
const COLUMNS: readonly BoxColumn[] = [
  ...(["grower", "outing", "band", "region", "arm", "box", "grains", "stood", "weather"] as const),
  ...(["lost", "take", "clean", "days", "cooked", "usable", "reused"] as const),
];
/** How the columns say that nothing is known. */
const NOTHING: Partial<Record<BoxColumn, string>> = { clean: "-1", reused: "0" };

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
  const stood = linesOf(boxes.stood);
  const among = (groups: readonly string[], atLeast: number): ReadonlySet<string> => {
    const growersOf = groupBy([...growers.keys()], (row) => groups[row]!);
    const ample = [...growersOf]
      .filter(
        ([group, rows]) =>
          group !== "" && new Set(rows.map((row) => growers[row])).size >= MINIMUM.households,
      )
      .map(([group]) => group);
    return new Set(ample.length >= atLeast ? ample : []);
  };
  return {
    seasons: among(stood.map(seasonWhere), MINIMUM_SEASONS),
    warmths: among(
      linesOf(boxes.weather).map((days, row) => warmthWhere(stood[row]!, days)),
      MINIMUM_WARMTHS,
    ),
  };
}

function boxesOf({ boxes, looks }: StoredCut, { seasons, warmths }: Compared): CutBox[] {
  const columns = COLUMNS.map((column) => linesOf(boxes[column]));
  const looksAt = new Map<string, StoredLook[]>();
  for (const look of looks) {
    const key = `${look.outing} ${look.box}`;
    looksAt.set(key, [...(looksAt.get(key) ?? []), look]);
  }
  return linesOf(boxes.box).map((_, row) => {
    const line = Object.fromEntries(COLUMNS.map((column, i) => [column, columns[i]![row]!])) as Record<
      BoxColumn,
      string
    >;
    const key = `${line.outing} ${line.box}`;
    const { grower, arm, band, region } = line;
    const told = Object.fromEntries(
      COLUMNS.map((column) => [column, line[column] === NOTHING[column] ? "" : line[column]]),
    );
    const own = looksAt.get(key);
    const [season, warmth] = [seasonWhere(line.stood), warmthWhere(line.stood, line.weather)];
    return {
      ...{ key, grower, arm, band, region },
      season: seasons.has(season) ? season : "",
      warmth: warmths.has(warmth) ? warmth : "",
      told: { ...told, looks: own ? JSON.stringify(own) : "" },
    };
  });
}

function cutOf(boxes: readonly CutBox[]): StoredCut {
  const columnOf = (column: BoxColumn): string | null =>
    boxes.length === 0 ? null : boxes.map(({ told }) => told[column] || (NOTHING[column] ?? "")).join("\n");
  return {
    boxes: Object.fromEntries(COLUMNS.map((column) => [column, columnOf(column)])) as StoredCut["boxes"],
    looks: boxes.flatMap(({ told }) => (told.looks ? (JSON.parse(told.looks) as StoredLook[]) : [])),
  };
}
