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
import { eachOf, flagsOf, linesOf, numbered, numbersOf, setLines, spread, upTo } from "./pool-lines";

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
  const setOf = setLines(stored);
  const table = tableOf(stored, setOf, grainOf);
  const stood = linesOf(stored.stood);
  const weather = linesOf(stored.weather).map((days, set) => `${stood[set]}|${days}`);
  const warmthOf = (line: string) => warmthWhere(...(line.split("|") as [string, string]));
  const ofBoxes = (groups: RowGroups | null) => groups && { ...groups, index: spread(groups.index, setOf) };
  return {
    table,
    extras: {
      asCooked: asCookedOf(linesOf(stored.cooked), table),
      fetchDay: numbersOf(linesOf(stored.days)),
      usableMassG: numbersOf(linesOf(stored.usable)),
      masked: looksOf(looks, linesOf(stored.box), table),
      season: ofBoxes(groupsOf(eachOf(stood, seasonWhere))),
      warmth: ofBoxes(groupsOf(eachOf(weather, warmthOf))),
      reusedSpot: stored.reused === null ? null : Uint8Array.from(spread(flagsOf(stored.reused), setOf)),
    },
  };
}

function tableOf(stored: StoredBoxes, setOf: Int32Array, grainOf: ReadonlyMap<string, string>): PoolTable {
  const ofSets = (column: string | null) => {
    const { labels, index } = numbered(linesOf(column));
    return { labels, index: spread(index, setOf) };
  };
  const grower = ofSets(stored.grower);
  const outing = ofSets(stored.outing);
  const band = ofSets(stored.band);
  const region = ofSets(stored.region);
  const arm = numbered(linesOf(stored.arm));
  const available = availabilityOf(linesOf(stored.grains), grainOf);
  const lost = Uint8Array.from(flagsOf(stored.lost));
  const n = lost.length;
  const outcome = new Float64Array(n);
  const take = linesOf(stored.take);
  const cleanTake = flagsOf(stored.clean);
  for (let row = 0; row < n; row++) {
    const isLost = lost[row] === 1;
    outcome[row] = isLost || take[row] === "" ? Number.NaN : Number(take[row]);
    if (isLost) cleanTake[row] = -1;
  }
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
      outcome,
      lost,
      availability: spread(available.index, setOf),
    },
    region: n > 0 ? region : null,
    box: n > 0 ? { texts: packTexts(linesOf(stored.box)), index: upTo(n) } : null,
    cleanTake: n > 0 ? cleanTake : null,
  };
}

/** By set, the arms that could be cooked: grains that no arm needs make no difference. */
function availabilityOf(grainsBySet: readonly string[], grainOf: ReadonlyMap<string, string>) {
  const grains = numbered(grainsBySet);
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
  const index = columns.arm.slice();
  for (let row = 0; row < index.length; row++)
    if (cooked[row] === "cooked-otherwise" || cooked[row] === "not-cooked") index[row] = -1;
  return { labels: columns.labels.arm, index };
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
