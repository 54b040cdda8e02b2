import { describe, expect, it } from "vitest";
import { seededSource } from "@/lib/engine/random/source";
import { seasonResults } from "@/lib/engine/statistics/analysis-standing";
import { groupBy } from "@/lib/engine/statistics/grouping";
import { jointTest } from "@/lib/engine/statistics/mixed/contrasts";
import { fitMixedModel } from "@/lib/engine/statistics/mixed/fit-mixed-model";
import { RANDOM_TERMS } from "@/lib/engine/statistics/mixed/types";
import { type PooledTable, poolColumns } from "@/lib/engine/statistics/pool-columns";
import { NO_EXTRAS } from "@/lib/engine/statistics/pool-extras";
import { type PoolTable, poolTable } from "@/lib/engine/statistics/pool-table";
import { showableStandings } from "@/lib/engine/statistics/standing-withholding";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import { type PoolResult, type PoolRow, poolResultSchema } from "@/shared/schemas/pool";
import type { WarmthClass } from "@/shared/vocabulary/exposure";
import type { SeasonCode } from "@/shared/vocabulary/season";
import { type SimulatedTrial, simulateTrial } from "./simulated-trial";
import { rankOf } from "./subtraction-attack";

const WARMTHS: readonly WarmthClass[] = ["0-50", "75-150"];
const LABELS: readonly SeasonCode[] = ["2026-03 spring", "2026-06 summer", "2026-09 autumn"];

/** Pooled with the season its outing has by `seasonOf`; −1 where it has none. */
function pooledBySeason(
  rows: readonly PoolRow[],
  seasonOf: (outing: string) => number,
  options = {},
): PooledTable {
  const table = poolTable(rows);
  const { outing, labels } = table.columns;
  const season = { labels: LABELS, index: outing.map((o) => seasonOf(labels.outing[o]!)) };
  const warmth = { labels: WARMTHS, index: outing.map((o) => warmthOf(labels.outing[o]!)) };
  const extras = { ...NO_EXTRAS, season, warmth };
  return poolColumns(table, extras, { permutations: 19, sensitivity: true, ...options });
}

/** Warm, cool or not noted. */
function warmthOf(outing: string): number {
  const n = Number(/\d+/.exec(outing));
  return n % 5 === 4 ? -1 : n % 2;
}

/** Three seasons by turns over outings. */
const byTurns = (outing: string): number =>
  (Number(/o(\d+)$/.exec(outing)![1]) + Number(/\d+/.exec(outing))) % 3;

/** A grower's first set in spring, the next in summer, the third, which few have, in autumn. */
const oneAfterAnother = (outing: string): number => Number(/o(\d+)$/.exec(outing)![1]);

const trial: SimulatedTrial = { growers: 60, arms: 3, growerArmSd: 0.3 };

describe("recipes by season", () => {
  it("is the model of cells with seasons where climate groups stood", () => {
    const { table, plan } = pooledBySeason(simulateTrial(trial, "seasons"), byTurns);
    const { columns } = table;
    // Growth in a trial whose climate groups are these seasons.
    const season = { labels: LABELS, index: columns.outing.map((o) => byTurns(columns.labels.outing[o]!)) };
    const found = seasonResults(columns, season, plan);
    const again = fitMixedModel(
      { ...columns, labels: { ...columns.labels, band: LABELS }, band: season.index },
      { random: RANDOM_TERMS },
    );
    if (!again.ok) throw new Error("no fit");
    const weights = [1, 2].flatMap((s) =>
      [1, 2].map((a) =>
        [s, 0].flatMap((t) => [
          { band: LABELS[t]!, arm: `arm${a}`, weight: t === s ? 1 : -1 },
          { band: LABELS[t]!, arm: "arm0", weight: t === s ? -1 : 1 },
        ]),
      ),
    );
    const joint = jointTest(again.fit, weights)!;
    expect(found).toMatchObject({ reason: null, present: LABELS, df1: 4 });
    expect(found.statistic).toBeCloseTo(joint.f, 8);
    // Satterthwaite's df of several contrasts at once depend a little on how they are turned.
    expect(found.p).toBeCloseTo(joint.p, 4);
    expect(found.cells.length).toBe(9);
    expect(found.cells.reduce((sum, { boxes }) => sum + boxes!, 0)).toBe(again.fit.boxes);
  });

  it("finds a recipe whose growth turns with the season", () => {
    const rows = simulateTrial(trial, "turning").map((row) =>
      row.arm === "arm0" && row.outcome !== null
        ? { ...row, outcome: Math.max(0, row.outcome - byTurns(row.outing)) }
        : row,
    );
    const { seasons } = pooledBySeason(rows, byTurns).result.analysis!;
    expect(seasons!.p).toBeLessThan(0.01);
    const means = LABELS.map(
      (season) => seasons!.cells.find((cell) => cell.group === season && cell.arm === "arm0")!.estimate!,
    );
    expect(means[0]).toBeGreaterThan(means[2]! + 0.5);
  });

  it("compares cool and warm days of those who noted them, once both have enough growers", () => {
    const rows = simulateTrial(trial, "seasons");
    const { warmth } = pooledBySeason(rows, byTurns).result.analysis!;
    expect(warmth).toMatchObject({ present: WARMTHS, reason: null, df1: 2 });
    const noted = rows.filter(({ outcome, outing }) => outcome !== null && warmthOf(outing) >= 0);
    expect(warmth!.cells.reduce((sum, { boxes }) => sum + boxes!, 0)).toBe(noted.length);
    expect(noted.length).toBeLessThan(rows.length / 1.2);
  });

  it("leaves out boxes of an outing that are said to have stood in something else than the others", () => {
    const { table, extras, plan } = pooledBySeason(simulateTrial(trial, "seasons"), byTurns);
    const { outing, outcome } = table.columns;
    const measured = [...outcome.keys()].filter((row) => !Number.isNaN(outcome[row]!));
    const second = measured.find((row, i) => i > 0 && outing[row] === outing[measured[i - 1]!])!;
    const index = extras.season!.index.slice();
    index[second] = (index[second]! + 1) % 3;
    const { cells } = seasonResults(table.columns, { labels: LABELS, index }, plan);
    expect(cells.reduce((sum, { boxes }) => sum + boxes!, 0)).toBe(measured.length - 1);
  });

  it("waits for three seasons of enough growers, and leaves boxes of no known season out", () => {
    const rows = simulateTrial(trial, "seasons");
    const two = pooledBySeason(rows, (outing) => byTurns(outing) % 2).result.analysis!.seasons;
    expect(two).toMatchObject({ present: LABELS.slice(0, 2), cells: [], p: null, reason: "FEW_SEASONS" });
    // The third season has two growers only.
    const few = (outing: string) => (/^g[01]o/.test(outing) ? 2 : byTurns(outing) % 2);
    expect(pooledBySeason(rows, few).result.analysis!.seasons).toMatchObject({
      present: LABELS.slice(0, 2),
      reason: "FEW_SEASONS",
    });
    const unknown = pooledBySeason(rows, (outing) => (/^g[01]o/.test(outing) ? -1 : byTurns(outing)));
    const boxes = unknown.result.analysis!.seasons!.cells.reduce((sum, cell) => sum + cell.boxes!, 0);
    expect(boxes).toBe(
      rows.filter(({ grower, outcome }) => outcome !== null && !["g0", "g1"].includes(grower)).length,
    );
  });
});

/** A few households at 2 regions × 2 bands × 3 seasons, 2 arms, some boxes unmeasured. */
function sparseTrial(seed: string): PoolRow[] {
  const source = seededSource(seed);
  return Array.from({ length: 6 + source.below(20) }, (_, g) => {
    const region = ["coast", "hills"][Number(source.below(3) > 0)]!;
    const band = ["Cfb", "Csb"][Number(source.below(4) > 0)]!;
    return Array.from({ length: 1 + source.below(3) }, (__, o) =>
      Array.from({ length: 2 + source.below(4) }, (): PoolRow => {
        const outcome = source.below(8) === 0 ? null : source.below(5);
        const arm = `arm${source.below(2)}`;
        return { grower: `g${g}`, outing: `g${g}o${o}`, region, band, arm, outcome, status: "graded" };
      }),
    ).flat();
  }).flat();
}

interface Place {
  readonly region: string;
  readonly band: string;
  readonly arm: string;
  readonly season: number;
  readonly warmth: number;
}
const STANDINGS = ["season", "warmth"] as const;

/** Every figure of growth that is published, by place and by what boxes stood in, as what it asks of a measured box. */
function publishedGrowth(
  result: PoolResult,
  isShownBy: (by: (typeof STANDINGS)[number], place: Place) => boolean,
) {
  const shown = (figure: object): boolean => Object.values(figure).some((x) => typeof x === "number");
  const arms: ({ band?: string; region?: string } & PoolResult["overall"][number])[] = [
    ...result.cells,
    ...result.regions,
    ...result.overall,
  ];
  return [
    ...arms
      .filter(({ mean, distribution }) => shown(mean) || distribution.classes !== null)
      .map(
        ({ band, region, arm }) =>
          (at: Place) =>
            at.arm === arm && (band ?? at.band) === at.band && (region ?? at.region) === at.region,
      ),
    ...STANDINGS.flatMap((by) =>
      [0, 1, 2].flatMap((group) =>
        ["arm0", "arm1"].map((arm) => (at: Place) => at[by] === group && at.arm === arm && isShownBy(by, at)),
      ),
    ),
  ];
}

function measuredBoxes(table: PoolTable): (Place & { readonly grower: string; readonly row: number })[] {
  const { columns, region } = table;
  const { labels, outcome, band, arm, grower, outing } = columns;
  return [...outcome.keys()]
    .filter((row) => !Number.isNaN(outcome[row]!))
    .map((row) => ({
      row,
      region: region!.labels[region!.index[row]!]!,
      band: labels.band[band[row]!]!,
      arm: labels.arm[arm[row]!]!,
      season: oneAfterAnother(labels.outing[outing[row]!]!),
      warmth: warmthOf(labels.outing[outing[row]!]!),
      grower: labels.grower[grower[row]!]!,
    }));
}

function isThin(boxes: readonly { readonly grower: string }[]): boolean {
  return boxes.length < 5 || new Set(boxes.map(({ grower }) => grower)).size < 3;
}

describe("seasons and warmth in what is published, against an attacker who adds and subtracts", () => {
  it("lets nothing small be worked out beside climate groups and regions, in 20 random sparse trials", {
    timeout: 120_000,
  }, () => {
    let [shownCells, hiddenCells] = [0, 0];
    for (let i = 0; i < 20; i++) {
      const pooled = pooledBySeason(sparseTrial(`sparse seasons ${i}`), oneAfterAnother, {
        sensitivity: false,
      });
      const result = withholdSmallCells(pooled);
      const isWhole = (cell: { band: string; arm: string }) => {
        const own = result.cells.find(({ band, arm }) => band === cell.band && arm === cell.arm)!;
        return own.counts.boxes !== null && own.mean.boxes !== null && own.cleanTake.reason !== "WITHHELD";
      };
      const slices = [...result.cells, ...result.regions, ...result.overall].map((slice) => ({
        ...slice,
        isHidden: slice.mean.reason === "WITHHELD",
      }));
      const shown = showableStandings(pooled, isWhole, slices);
      const boxes = measuredBoxes(pooled.table);
      const placeOf = ({ region, band, arm, season, warmth }: Place): string =>
        [region, band, arm, season, warmth].join();
      const atoms = [...groupBy(boxes, placeOf).values()];
      const figures = publishedGrowth(result, (by, at) =>
        boxes.some(
          (box) =>
            shown[by]!.index[box.row]! >= 0 &&
            isWhole(box) &&
            box.band === at.band &&
            box.arm === at.arm &&
            box[by] === at[by],
        ),
      );
      const vectors = figures.map((of) => atoms.map(([first]) => Number(of(first!))));
      figures.forEach((of, f) => {
        const members = boxes.filter(of);
        if (vectors[f]!.includes(1)) expect(isThin(members), `trial ${i}`).toBe(false);
      });
      for (const by of STANDINGS) {
        for (const own of groupBy(boxes, (box) => `${box.arm} ${box[by]}`).values()) {
          if (own.some(({ row }) => shown[by]!.index[row]! >= 0)) shownCells++;
          else if (own[0]![by] >= 0) hiddenCells++;
        }
      }
      expectNothingThin(atoms, vectors, `trial ${i}`);
    }
    expect(shownCells).toBeGreaterThan(60);
    expect(hiddenCells).toBeGreaterThan(10);
  });

  it("rest on shown boxes alone: what is held back changes nothing in them", () => {
    const ample = simulateTrial({ ...trial, growers: 90 }, "ample").map(
      (row): PoolRow => ({ ...row, region: Number(row.grower.slice(1)) % 2 === 0 ? "coast" : "hills" }),
    );
    const analyse = (outcome: number) => {
      const alone = [0, 1, 2].map(
        (arm): PoolRow => ({
          grower: "g999",
          outing: "g999o1",
          band: "Dfb",
          region: "coast",
          arm: `arm${arm}`,
          outcome,
          status: "graded",
        }),
      );
      return withholdSmallCells(pooledBySeason([...ample, ...alone], byTurns));
    };
    const [one, other] = [analyse(4), analyse(0)];
    expect(one.analysis!.seasons).toMatchObject({ reason: null, present: LABELS });
    expect(one.analysis!.seasons).toEqual(other.analysis!.seasons);
    expect(poolResultSchema.parse(one).analysis!.seasons).toEqual(one.analysis!.seasons);
  });

  it("leave out a recipe in a season where one household had it, and another season so that it can't be worked out", () => {
    const rows = simulateTrial({ ...trial, growers: 90 }, "ample").filter(
      ({ arm, outing, grower }) => arm !== "arm2" || byTurns(outing) !== 2 || grower === "g7",
    );
    const pooled = pooledBySeason(rows, byTurns);
    const whole = pooled.result.analysis!.seasons!;
    const { cells, reason } = withholdSmallCells(pooled).analysis!.seasons!;
    const named = (of: typeof cells) => of.map(({ group, arm }) => `${group} ${arm}`);
    expect(reason).toBeNull();
    expect(named(whole.cells)).toContain("2026-09 autumn arm2");
    expect(named(cells).filter((name) => name.endsWith("arm2"))).toHaveLength(1);
    expect(named(cells).filter((name) => !name.endsWith("arm2"))).toHaveLength(6);
  });

  it("takes no more than seconds for a wide, thin trial", () => {
    const rows = simulateTrial({ growers: 150, arms: 12, growerArmSd: 0 }, "wide").map(
      (row): PoolRow => ({ ...row, region: `region ${Number(row.grower.slice(1)) % 6}` }),
    );
    const pooled = pooledBySeason(rows, byTurns, { sensitivity: false });
    const slices = [...pooled.result.cells, ...pooled.result.regions].map((slice) => ({
      ...slice,
      isHidden: false,
    }));
    const started = performance.now();
    expect(showableStandings(pooled, () => true, slices).season).not.toBeNull();
    expect(performance.now() - started).toBeLessThan(10_000);
  });

  it("are held back where too few remain, and the spots used before where few were", () => {
    const rows = simulateTrial(trial, "seasons");
    const table = poolTable(rows);
    const { outing, labels, grower } = table.columns;
    // Two growers alone had the third season, for all but two recipes it is too little.
    const few = (o: string) => (/^g[0-3]o/.test(o) ? 2 : byTurns(o) % 2);
    const season = { labels: LABELS, index: outing.map((o) => few(labels.outing[o]!)) };
    const reusedSpot = Uint8Array.from(grower, (g) => Number(labels.grower[g] === "g5"));
    const pooled = poolColumns(
      table,
      { ...NO_EXTRAS, season, reusedSpot },
      { permutations: 19, sensitivity: true },
    );
    const published = withholdSmallCells(pooled).analysis!;
    const outings = new Set(rows.filter((row) => row.grower === "g5").map((row) => row.outing)).size;
    expect(pooled.result.analysis!.reusedSpots).toMatchObject({ reused: outings, reason: null });
    expect(published.reusedSpots).toEqual({ reused: null, outings: null, reason: "WITHHELD" });
  });
});

/** No vector on atoms of two households, nor a union with four boxes at most, can be made of the vectors. */
function expectNothingThin(
  atoms: readonly (readonly { readonly grower: string }[])[],
  vectors: readonly (readonly number[])[],
  where: string,
): void {
  const rank = rankOf(vectors);
  const makesVectorOn = (members: ReadonlySet<number>): boolean =>
    rankOf(vectors.map((vector) => vector.filter((_, atom) => !members.has(atom)))) < rank;
  const households = [...new Set(atoms.flatMap((own) => own.map(({ grower }) => grower)))];
  for (const [i, first] of households.entries()) {
    for (const second of households.slice(i + 1)) {
      const theirs = [...atoms.keys()].filter((atom) =>
        atoms[atom]!.every(({ grower }) => grower === first || grower === second),
      );
      expect(makesVectorOn(new Set(theirs)), `${where}: ${first} ${second}`).toBe(false);
    }
  }
  const few = [...atoms.keys()].filter((atom) => atoms[atom]!.length < 5);
  const unions = (from: number, left: number, members: readonly number[]): number[][] =>
    few.slice(from).flatMap((atom, i) => {
      const rest = left - atoms[atom]!.length;
      if (rest < 0) return [];
      const union = [...members, atom];
      return [union, ...unions(from + i + 1, rest, union)];
    });
  for (const union of unions(0, 4, [])) {
    const vector = atoms.map((_, atom) => Number(union.includes(atom)));
    expect(rankOf([...vectors, vector]) > rank, `${where}: ${union}`).toBe(true);
  }
}
