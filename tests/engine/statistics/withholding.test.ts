import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { seededSource } from "@/lib/engine/random/source";
import { poolColumns } from "@/lib/engine/statistics/pool-columns";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import { type PoolResult, type PoolRow, poolResultSchema } from "@/shared/schemas/pool";
import { simulateTrial } from "./simulated-trial";
import { canMake, indicatorOf, subsets } from "./subtraction-attack";

const pooled = (rows: readonly PoolRow[]) => poolColumns(poolTable(rows), undefined, { permutations: 19 });

/** A few households at places in 2 regions × 2 bands, 2 arms, some boxes lost or unmeasured. */
function sparseTrial(seed: string): PoolRow[] {
  const source = seededSource(seed);
  const rows: PoolRow[] = [];
  const households = 3 + source.below(14);
  for (let g = 0; g < households; g++) {
    const region = ["coast", "hills"][source.below(3) === 0 ? 0 : 1]!;
    const band = ["Cfb", "Csb"][source.below(4) === 0 ? 0 : 1]!;
    for (let b = 0; b < 1 + source.below(5); b++) {
      const lost = source.below(6) === 0;
      const outcome = lost || source.below(8) === 0 ? null : source.below(5);
      rows.push({
        grower: `g${g}`,
        outing: `o${g}`,
        region,
        band,
        arm: `arm${source.below(2)}`,
        outcome,
        status: lost ? "lost" : "graded",
        cleanTake: outcome === null || source.below(9) === 0 ? null : outcome >= 3,
      });
    }
  }
  return rows;
}

type Slice = { band?: string; region?: string; arm?: string };
type Kind = { name: string; rows: PoolRow[]; slices: (Slice & { shown: boolean })[] };

/** Every figure of the result by what it rests on, and whether any number of it is shown. */
function kindsOf(result: PoolResult, rows: PoolRow[]): Kind[] {
  const shown = (figure: object): boolean => Object.values(figure).some((x) => typeof x === "number");
  const place = ({ band, region, arm }: Slice): Slice => ({ band, region, arm });
  const { cells, regions, overall, totals, loss, rank, rankByBand, data } = result;
  const arms: (Slice & PoolResult["overall"][number])[] = [...cells, ...regions, ...overall];
  const measured = rows.filter((row) => row.status === "graded" && row.outcome !== null);
  const ranked = measured.filter((row) => measured.filter((r) => r.outing === row.outing).length > 1);
  return [
    {
      name: "counts and losses",
      rows,
      slices: [
        ...arms.map((one) => ({ ...place(one), shown: shown(one.counts) })),
        ...totals.byBand.map((one) => ({ band: one.band, shown: shown(one) })),
        ...totals.byRegion.map((one) => ({ region: one.region, shown: shown(one) })),
        ...loss.map((one) => ({ arm: one.arm, shown: shown(one) })),
        { shown: shown(data) },
      ],
    },
    {
      name: "growth",
      rows: measured,
      slices: arms.map((one) => ({
        ...place(one),
        shown: shown(one.mean) || shown(one.distribution) || one.distribution.classes !== null,
      })),
    },
    {
      name: "clean take",
      rows: rows.filter((row) => row.status === "graded" && typeof row.cleanTake === "boolean"),
      slices: arms.map((one) => ({ ...place(one), shown: shown(one.cleanTake) })),
    },
    {
      name: "rank tests",
      rows: ranked,
      slices: [
        ...rankByBand.map((one) => ({ band: one.band, shown: shown(one) || shown(one.clustered) })),
        { shown: shown(rank) || shown(rank.clustered) },
      ],
    },
  ];
}

function matches(slice: Slice, row: PoolRow): boolean {
  return (["band", "region", "arm"] as const).every(
    (key) => slice[key] === undefined || slice[key] === row[key],
  );
}

function atomsOf(rows: readonly PoolRow[]): PoolRow[][] {
  const key = (row: PoolRow): string => `${row.region}/${row.band}/${row.arm}`;
  return [...new Set(rows.map(key))].map((atom) => rows.filter((row) => key(row) === atom));
}

function isSmall(rows: readonly PoolRow[]): boolean {
  return rows.length < 5 || new Set(rows.map((row) => row.grower)).size < 3;
}

it("gives the same by whichever SHA-256, begun anew for the boxes that may be shown", () => {
  const rows = simulateTrial({ growers: 12, arms: 3, growerArmSd: 0 }, "hashes").map((row, i) =>
    i === 0 ? { ...row, arm: "rare" } : row,
  );
  let begun = 0;
  const newHash = () => {
    begun++;
    return createHash("sha256");
  };
  const options = { permutations: 19 };
  const published = withholdSmallCells(poolColumns(poolTable(rows), undefined, { ...options, newHash }));
  expect(begun).toBe(2);
  expect(published).toEqual(withholdSmallCells(poolColumns(poolTable(rows), undefined, options)));
});

describe("withholdSmallCells, against an attacker who knows which cells are empty", () => {
  it("shows nothing small, nor lets it be worked out, in 150 random sparse trials", {
    timeout: 120_000,
  }, () => {
    let shownFigures = 0;
    let hiddenFigures = 0;
    for (let i = 0; i < 150; i++) {
      const rows = sparseTrial(`sparse trial ${i}`);
      const result = withholdSmallCells(pooled(rows));
      for (const kind of kindsOf(result, rows)) {
        const atoms = atomsOf(kind.rows);
        const vector = (slice: Slice): number[] => atoms.map((own) => (matches(slice, own[0]!) ? 1 : 0));
        const filled = kind.slices.filter((slice) => vector(slice).includes(1));
        const shown = filled.filter((slice) => slice.shown);
        const vectors = shown.map(vector);
        shownFigures += shown.length;
        hiddenFigures += filled.length - shown.length;
        const where = `trial ${i}, ${kind.name}`;
        for (const slice of shown)
          expect(isSmall(kind.rows.filter((row) => matches(slice, row)))).toBe(false);
        for (const slice of filled.filter((one) => !one.shown)) {
          expect(canMake(vectors, vector(slice)), `${where}: ${JSON.stringify(slice)}`).toBe(false);
        }
        for (const members of subsets(atoms.length)) {
          if (!isSmall(members.flatMap((atom) => atoms[atom]!))) continue;
          expect(canMake(vectors, indicatorOf(members, atoms.length)), `${where}: ${members}`).toBe(false);
        }
      }
    }
    expect(shownFigures).toBeGreaterThan(500);
    expect(hiddenFigures).toBeGreaterThan(500);
  });
});

describe("withholdSmallCells", () => {
  const ample = simulateTrial({ growers: 90, arms: 3, growerArmSd: 0.3 }, "ample").map(
    (row): PoolRow => ({ ...row, region: Number(row.grower.slice(1)) % 2 === 0 ? "coast" : "hills" }),
  );
  const alone = [0, 1, 2].map(
    (arm): PoolRow => ({
      grower: "alone",
      outing: "alone",
      band: "Dfb",
      region: "coast",
      arm: `arm${arm}`,
      outcome: 4,
      status: "graded",
      cleanTake: true,
    }),
  );

  it("leaves an ample trial as it is", () => {
    const own = pooled(ample);
    expect(withholdSmallCells(own)).toEqual(own.result);
  });

  it("hides one household's climate group whole, at the cost of figures over all groups and not of other groups", () => {
    const rows = [...ample, ...alone];
    const result = withholdSmallCells(pooled(rows));
    expect(poolResultSchema.parse(result)).toEqual(result);
    expect(result.notes).toContain("SMALL_CELLS_WITHHELD");
    for (const cell of result.cells.filter(({ band }) => band === "Dfb")) {
      expect(cell.counts).toMatchObject({ boxes: null, growers: null, lost: null, reason: "WITHHELD" });
      expect(cell.mean).toMatchObject({ estimate: null, boxes: null, growers: null, reason: "WITHHELD" });
      expect(cell.distribution).toMatchObject({ classes: null, growers: null, reason: "WITHHELD" });
      expect(cell.cleanTake).toMatchObject({ share: null, count: null, reason: "WITHHELD" });
    }
    expect(result.rankByBand.find(({ band }) => band === "Dfb")).toMatchObject({ p: null, boxes: null });
    expect(result.totals.byBand.find(({ band }) => band === "Dfb")).toMatchObject({ boxes: null });
    const others = result.cells.filter(({ band }) => band !== "Dfb");
    expect(others.length).toBe(9);
    expect(
      others.every(({ counts, mean, cleanTake }) => counts.boxes && mean.estimate && cleanTake.share),
    ).toBe(true);
    // Band totals known, the trial's would give the lone household away.
    expect(result.overall.every(({ mean }) => mean.estimate === null)).toBe(true);
    expect(result.data).toMatchObject({ rows: null, lost: null, reason: "WITHHELD" });
    expect(result.rankByBand.filter(({ clustered }) => clustered.p !== null).length).toBe(3);
  });

  it.each([
    // Region and arm totals have to go with it, cells of other groups don't.
    { hidden: "one household's climate group", own: alone, rest: ample, shown: 9 },
    // The group's totals would give it away, so another cell of the group goes with it.
    {
      hidden: "a recipe that one household cooked",
      own: ample.slice(0, 2).map((row): PoolRow => ({ ...row, arm: "rare" })),
      rest: ample.slice(2),
      shown: 8,
    },
  ])(
    "publishes an analysis that $hidden can't change, and of single growers nothing",
    ({ own, rest, shown }) => {
      const analyse = (outcomes: readonly number[]) => {
        const few = own.map((row, i): PoolRow => ({ ...row, status: "graded", outcome: outcomes[i]! }));
        const options = { permutations: 19, sensitivity: true, byGrower: true, reference: "arm0" };
        const whole = poolColumns(poolTable([...rest, ...few]), undefined, options);
        return { whole: whole.result.analysis!, published: withholdSmallCells(whole).analysis! };
      };
      const [one, other] = [analyse([4, 4, 4]), analyse([0, 1, 3])];
      expect(one.whole.growers.length).toBeGreaterThan(0);
      expect(one.whole.cells).not.toEqual(other.whole.cells);
      expect(one.published).toEqual(other.published);
      expect(one.published.growers).toEqual([]);
      expect(one.published.cells.length).toBe(shown);
      expect(one.published.contrasts.every(({ p }) => p !== null)).toBe(true);
    },
  );

  it("withholds losses too where an arm was cooked by too few", () => {
    const rows = [...ample, ...alone.map((row) => ({ ...row, arm: "rare", band: "Cfb" }))];
    const { loss, overall } = withholdSmallCells(pooled(rows));
    const rare = loss.find(({ arm }) => arm === "rare");
    expect(rare).toMatchObject({ boxes: null, count: null, lost: null, share: null, reason: "WITHHELD" });
    expect(overall.find(({ arm }) => arm === "rare")!.counts.boxes).toBeNull();
    expect(loss.filter(({ boxes }) => boxes !== null).length).toBe(2);
  });

  it("takes no more than seconds for a wide, thin trial", () => {
    const rows = simulateTrial({ growers: 150, arms: 12, growerArmSd: 0 }, "wide").map(
      (row): PoolRow => ({ ...row, region: `region ${Number(row.grower.slice(1)) % 6}` }),
    );
    const started = performance.now();
    const result = withholdSmallCells(pooled(rows));
    expect(performance.now() - started).toBeLessThan(20_000);
    expect(result.cells.some(({ mean }) => mean.estimate !== null)).toBe(true);
  });
});
