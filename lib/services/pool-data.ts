import type { Transaction } from "@/lib/data/client";
import {
  grainsOfArms,
  type StoredBoxes,
  type StoredCut,
  type StoredLook,
  storedCut,
} from "@/lib/data/pool-boxes";
import { EXPOSURE_DAYS, exposureOf, warmthClass } from "@/lib/engine/climate/exposure";
import { seasonOf } from "@/lib/engine/climate/season";
import { packTexts } from "@/lib/engine/statistics/packed-texts";
import type { PoolExtras, RowGroups } from "@/lib/engine/statistics/pool-extras";
import type { PoolTable } from "@/lib/engine/statistics/pool-table";
import type { WarmthClass } from "@/shared/vocabulary/exposure";
import type { SeasonCode } from "@/shared/vocabulary/season";

const DAY_MS = 86_400_000;

/** What a trial's analysis is made of. */
export interface PoolData {
  readonly table: PoolTable;
  readonly extras: PoolExtras;
}

/**
 * The boxes of a trial's analysis, by the rules of `boxesOfAnalysis`, as the statistics read them.
 * @param until when the trial closed: only what the server had received by then counts
 */
export async function analysisTable(tx: Transaction, trialId: string, until?: Date): Promise<PoolData> {
  return poolDataOf(await storedCut(tx, trialId, until), await grainsOfArms(tx, trialId));
}

/**
 * Stored boxes as the statistics read them. The arms available in an outing are those whose grain was at hand.
 * @param grainOf the grain that each arm needs
 */
export function poolDataOf(
  { boxes: stored, looks }: StoredCut,
  grainOf: ReadonlyMap<string, string>,
): PoolData {
  const table = tableOf(stored, grainOf);
  const stood = linesOf(stored.stood);
  return {
    table,
    extras: {
      asCooked: asCookedOf(linesOf(stored.cooked), table),
      fetchDay: numbersOf(linesOf(stored.days)),
      usableMassG: numbersOf(linesOf(stored.usable)),
      masked: looksOf(looks, linesOf(stored.box), table),
      season: groupsOf(eachOf(stood, seasonWhere)),
      warmth: groupsOf(
        eachOf(
          linesOf(stored.weather).map((days, row) => `${stood[row]}|${days}`),
          (line) => warmthWhere(...(line.split("|") as [string, string])),
        ),
      ),
      reusedSpot: stored.reused === null ? null : Uint8Array.from(linesOf(stored.reused), Number),
    },
  };
}

export function linesOf(column: string | null): string[] {
  return column === null ? [] : column.split("\n");
}

function numbered(lines: readonly string[]): { readonly labels: string[]; readonly index: Int32Array } {
  const place = new Map<string, number>();
  const index = Int32Array.from(lines, (line) => {
    const known = place.get(line);
    if (known !== undefined) return known;
    place.set(line, place.size);
    return place.size - 1;
  });
  return { labels: [...place.keys()], index };
}

function tableOf(stored: StoredBoxes, grainOf: ReadonlyMap<string, string>): PoolTable {
  const grower = numbered(linesOf(stored.grower));
  const outing = numbered(linesOf(stored.outing));
  const band = numbered(linesOf(stored.band));
  const arm = numbered(linesOf(stored.arm));
  const region = numbered(linesOf(stored.region));
  const available = availabilityOf(linesOf(stored.grains), grainOf);
  const boxes = linesOf(stored.box);
  const lost = Uint8Array.from(linesOf(stored.lost), Number);
  const n = lost.length;
  const isLost = (row: number): boolean => lost[row] === 1;
  const take = linesOf(stored.take);
  const clean = Int8Array.from(linesOf(stored.clean), Number);
  return {
    columns: {
      n,
      labels: {
        grower: grower.labels,
        outing: outing.labels,
        band: band.labels,
        arm: arm.labels,
        availability: available.labels,
      },
      grower: grower.index,
      outing: outing.index,
      band: band.index,
      arm: arm.index,
      outcome: Float64Array.from(take, (text, row) =>
        isLost(row) || text === "" ? Number.NaN : Number(text),
      ),
      lost,
      availability: available.index,
    },
    region: n > 0 ? region : null,
    box: n > 0 ? { texts: packTexts(boxes), index: Int32Array.from(boxes.keys()) } : null,
    cleanTake: n > 0 ? clean.map((known, row) => (isLost(row) ? -1 : known)) : null,
  };
}

/** By row, the arms that could be cooked: grains that no arm needs make no difference. */
function availabilityOf(grainsByRow: readonly string[], grainOf: ReadonlyMap<string, string>) {
  const grains = numbered(grainsByRow);
  const arms = numbered(grains.labels.map((each) => armsOfGrains(each, grainOf)));
  return { labels: arms.labels, index: grains.index.map((each) => arms.index[each]!) };
}

/** The arms whose grain is among those at hand, as a set's label. */
function armsOfGrains(grains: string, grainOf: ReadonlyMap<string, string>): string {
  const atHand = new Set(grains.split(" "));
  const arms = [...grainOf].filter(([, grain]) => atHand.has(grain)).map(([arm]) => arm);
  return arms.sort().join(" ");
}

/** What was cooked otherwise is told in own words only, so it is no arm; null while nobody said how boxes were cooked. */
function asCookedOf(cooked: readonly string[], { columns }: PoolTable): PoolExtras["asCooked"] {
  if (cooked.every((kind) => kind === "")) return null;
  const isOther = (row: number): boolean =>
    cooked[row] === "cooked-otherwise" || cooked[row] === "not-cooked";
  return { labels: columns.labels.arm, index: columns.arm.map((arm, row) => (isOther(row) ? -1 : arm)) };
}

/** The season of one line of `StoredBoxes.stood`. */
export function seasonWhere(stood: string): SeasonCode {
  const [day, latitude] = stood.split(" ") as [string, string];
  return seasonOf(day, Number(latitude));
}

/** How warm it was by a line of `StoredBoxes.stood` and one of `.weather`; "" where a day's temperatures are missing. */
export function warmthWhere(stood: string, weather: string): WarmthClass | "" {
  if (weather === "") return "";
  const read = new Map(weather.split(";").map((line) => [line.slice(0, 10), line.split(",").slice(1)]));
  const first = Date.parse(stood.slice(0, 10));
  const days = Array.from({ length: EXPOSURE_DAYS }, (_, i) => {
    const [min, max, rain] = read.get(new Date(first + i * DAY_MS).toISOString().slice(0, 10)) ?? [];
    if (!min || !max) return null;
    return { minC: Number(min), maxC: Number(max), rainMm: rain ? Number(rain) : null };
  });
  const exposure = exposureOf(days);
  return exposure ? warmthClass(exposure) : "";
}

/** Rows by label; "" is none. Null where no row has one. */
function groupsOf(lines: readonly string[]): RowGroups | null {
  const labels = [...new Set(lines)].filter((label) => label !== "");
  if (labels.length === 0) return null;
  const place = new Map(labels.map((label, i) => [label, i]));
  return { labels, index: Int32Array.from(lines, (label) => place.get(label) ?? -1) };
}

/** `of` for every line, worked out once for lines alike. */
function eachOf(lines: readonly string[], of: (line: string) => string): string[] {
  const known = new Map<string, string>();
  return lines.map((line) => {
    const found = known.get(line) ?? of(line);
    known.set(line, found);
    return found;
  });
}

/** NaN where nothing is known of a box; null where of none. */
function numbersOf(lines: readonly string[]): Float64Array | null {
  if (lines.every((line) => line === "")) return null;
  return Float64Array.from(lines, (line) => (line === "" ? Number.NaN : Number(line)));
}

/** Graders numbered as they come. */
function looksOf(
  looks: readonly StoredLook[],
  boxes: readonly string[],
  { columns }: PoolTable,
): PoolExtras["masked"] {
  if (looks.length === 0) return null;
  const { outing, labels } = columns;
  const keyOf = (own: string, box: string): string => `${own}\n${box}`;
  const rowOf = new Map(boxes.map((box, row) => [keyOf(labels.outing[outing[row]!]!, box), row]));
  const known = looks.filter((look) => rowOf.has(keyOf(look.outing, look.box)));
  return {
    row: Int32Array.from(known, (look) => rowOf.get(keyOf(look.outing, look.box))!),
    grader: numbered(known.map(({ grader }) => grader)).index,
    take: Int8Array.from(known, ({ take }) => take),
  };
}
