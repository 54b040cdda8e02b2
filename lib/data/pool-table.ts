import { packTexts } from "@/lib/engine/statistics/packed-texts";
import type { PoolExtras } from "@/lib/engine/statistics/pool-extras";
import type { PoolTable } from "@/lib/engine/statistics/pool-table";
import type { Transaction } from "./client";

/** What a trial's analysis is made of. */
export interface PoolData {
  readonly table: PoolTable;
  readonly extras: PoolExtras;
}

/** Every column of the rows as one text, a line per box, so that 100,000 boxes are one record and not 100,000. */
interface StoredColumns {
  readonly grower: string | null;
  readonly outing: string;
  readonly band: string;
  readonly region: string;
  readonly arm: string;
  readonly box: string;
  readonly lost: string;
  readonly take: string;
  readonly clean: string;
  readonly grains: string;
  readonly days: string;
  readonly cooked: string;
}

/**
 * The boxes of a trial's analysis, one row per drawn box, whatever became of it, as the database's `drawn_boxes` says.
 * - The grower is the household, by its pseudonym in the trial. A grade without a take is a graded row whose outcome
 *   is unmeasured.
 * - A box neither recorded nor lost is pending while the trial is open, and no row.
 * - Arms available in an outing are those whose grain was at hand when it was committed.
 * - Beyond the rows: whether a box was cooked as drawn, days from set-out to fetch, second looks at its photographs.
 * @param until when the trial closed: only what the server had received by then counts, and a box not recorded by
 *   then is lost
 */
export async function analysisTable(tx: Transaction, trialId: string, until?: Date): Promise<PoolData> {
  const [stored] = await tx.$queryRaw<StoredColumns[]>`
    WITH told AS (
      SELECT event.box_id, event.kind, event.occurred_at, event.received_at, event.id
      FROM outing JOIN box ON box.outing_id = outing.id JOIN box_event event ON event.box_id = box.id
      WHERE outing.trial_id = ${trialId}::uuid AND event.received_at <= coalesce(${until ?? null}::timestamptz, 'infinity')
        AND event.kind IN ('set-out', 'fetched', 'cooked-as-drawn', 'cooked-otherwise', 'not-cooked')
        AND NOT EXISTS (SELECT FROM box_event later
          WHERE later.withdraws_id = event.id AND later.withdraws_id IS NOT NULL
            AND later.received_at <= coalesce(${until ?? null}::timestamptz, 'infinity'))),
    days AS (
      SELECT box_id, floor(extract(epoch FROM max(occurred_at) FILTER (WHERE kind = 'fetched')
        - max(occurred_at) FILTER (WHERE kind = 'set-out')) / 86400)::int AS days
      FROM told GROUP BY box_id),
    cooking AS (
      SELECT DISTINCT ON (box_id) box_id, kind FROM told
      WHERE kind IN ('cooked-as-drawn', 'cooked-otherwise', 'not-cooked')
      ORDER BY box_id, received_at DESC, id DESC),
    line AS (
      SELECT row_number() OVER (ORDER BY drawn.outing, drawn.position) AS n, enrolment.pseudonym AS grower, drawn.outing,
        drawn.band, region.code AS region, arm.code AS arm, drawn.box, drawn.lost, drawn.take, drawn.clean_take,
        array_to_string(outing.grains_at_hand, ' ') AS grains, days.days, cooking.kind AS cooked
      FROM drawn_boxes(${trialId}::uuid, ${until ?? null}::timestamptz) drawn
      JOIN arm ON arm.id = drawn.arm_id
      JOIN enrolment ON enrolment.id = drawn.enrolment_id
      JOIN region ON region.id = drawn.region_id
      JOIN outing ON outing.id = drawn.outing_id
      LEFT JOIN days ON days.box_id = drawn.box_id
      LEFT JOIN cooking ON cooking.box_id = drawn.box_id
      WHERE drawn.recorded OR drawn.lost)
    SELECT string_agg(grower, E'\\n' ORDER BY n) AS grower, string_agg(outing, E'\\n' ORDER BY n) AS outing,
      string_agg(band, E'\\n' ORDER BY n) AS band, string_agg(region, E'\\n' ORDER BY n) AS region,
      string_agg(arm, E'\\n' ORDER BY n) AS arm, string_agg(box, E'\\n' ORDER BY n) AS box,
      string_agg(CASE WHEN lost THEN '1' ELSE '0' END, E'\\n' ORDER BY n) AS lost,
      string_agg(coalesce(take::text, ''), E'\\n' ORDER BY n) AS take,
      string_agg(CASE clean_take WHEN true THEN '1' WHEN false THEN '0' ELSE '-1' END, E'\\n' ORDER BY n) AS clean,
      string_agg(grains, E'\\n' ORDER BY n) AS grains,
      string_agg(coalesce(days::text, ''), E'\\n' ORDER BY n) AS days,
      string_agg(coalesce(cooked, ''), E'\\n' ORDER BY n) AS cooked
    FROM line`;
  const table = tableOf(stored!, await grainsOfArms(tx, trialId));
  return {
    table,
    extras: {
      asCooked: asCookedOf(linesOf(stored!.cooked), table),
      fetchDay: fetchDaysOf(linesOf(stored!.days)),
      masked: await maskedLooks(tx, trialId, table, linesOf(stored!.box), until),
    },
  };
}

async function grainsOfArms(tx: Transaction, trialId: string): Promise<ReadonlyMap<string, string>> {
  const arms = await tx.arm.findMany({
    where: { trialId },
    select: { code: true, variant: { select: { grain: true } } },
  });
  return new Map(arms.map(({ code, variant }) => [code, variant.grain]));
}

function linesOf(column: string | null): string[] {
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

function tableOf(stored: StoredColumns, grainOf: ReadonlyMap<string, string>): PoolTable {
  const grower = numbered(linesOf(stored.grower));
  const outing = numbered(linesOf(stored.outing));
  const band = numbered(linesOf(stored.band));
  const arm = numbered(linesOf(stored.arm));
  const region = numbered(linesOf(stored.region));
  const available = numbered(linesOf(stored.grains));
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
        availability: available.labels.map((grains) => armsOfGrains(grains, grainOf)),
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

function fetchDaysOf(days: readonly string[]): PoolExtras["fetchDay"] {
  if (days.every((day) => day === "")) return null;
  return Float64Array.from(days, (day) => (day === "" ? Number.NaN : Number(day)));
}

/** The latest second look of every grader at every box of the table; graders numbered as they come. */
async function maskedLooks(
  tx: Transaction,
  trialId: string,
  table: PoolTable,
  boxes: readonly string[],
  until?: Date,
): Promise<PoolExtras["masked"]> {
  const looks = await tx.$queryRaw<{ outing: string; box: string; grader: string; take: number }[]>`
    SELECT DISTINCT ON (outing.code, box.code, grade.grader_id)
      outing.code AS outing, box.code AS box, grade.grader_id AS grader, grade.take
    FROM outing JOIN box ON box.outing_id = outing.id JOIN grade ON grade.box_id = box.id AND grade.masked
    WHERE outing.trial_id = ${trialId}::uuid AND grade.take IS NOT NULL
      AND grade.received_at <= coalesce(${until ?? null}::timestamptz, 'infinity')
    ORDER BY outing.code, box.code, grade.grader_id, grade.revision DESC`;
  if (looks.length === 0) return null;
  const { outing, labels } = table.columns;
  const keyOf = (own: string, box: string): string => `${own}\n${box}`;
  const rowOf = new Map(boxes.map((box, row) => [keyOf(labels.outing[outing[row]!]!, box), row]));
  const known = looks.filter((look) => rowOf.has(keyOf(look.outing, look.box)));
  return {
    row: Int32Array.from(known, (look) => rowOf.get(keyOf(look.outing, look.box))!),
    grader: numbered(known.map(({ grader }) => grader)).index,
    take: Int8Array.from(known, ({ take }) => take),
  };
}
