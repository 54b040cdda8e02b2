import { createHash } from "node:crypto";
import { describe, expect, it } from "vitest";
import { type RandomSource, seededSource } from "@/lib/engine/random/source";
import { canonicalTable } from "@/lib/engine/statistics/canonical-columns";
import { type PoolTable, poolTable } from "@/lib/engine/statistics/pool-table";
import type { PoolRow } from "@/shared/schemas/pool";
import { poolTrial } from "@/tests/engine/statistics/pool-trial";
import { reference } from "./reference";

/** Every row's line as the documentation of `canonicalTable` words it, made by JSON.stringify and Array.sort. */
function plainLines(rows: readonly PoolRow[], availabilityOf: (row: PoolRow) => string = () => ""): string[] {
  const lines = rows.map((row) => {
    const graded = row.status === "graded";
    const available = availabilityOf(row);
    const text = JSON.stringify({
      arm: row.arm,
      ...(available === "" ? {} : { available }),
      band: row.band,
      box: row.box ?? null,
      cleanTake: graded ? (row.cleanTake ?? null) : null,
      grower: row.grower,
      outcome: graded ? row.outcome : null,
      outing: row.outing,
      region: row.region ?? null,
      status: row.status,
    });
    return `${text}\n`;
  });
  return lines.sort();
}

const sha256Of = (text: string): string => createHash("sha256").update(text, "utf8").digest("hex");

/** Labels that sort or encode unlike plain letters, in JSON, UTF-8 or UTF-16. */
const ODD = [
  "",
  " ",
  "!",
  '"',
  "\\",
  "\t",
  "\u0001",
  "\u007f",
  "é",
  "\u2028",
  "\uE000",
  "\uFFFD",
  "\u{1F33E}",
  "a",
];

function oddText(source: RandomSource): string {
  return Array.from({ length: 1 + source.below(3) }, () => ODD[source.below(ODD.length)]!).join("");
}

/** Rows over few labels, so that ties reach every member; nothing keeps an outing in one group here. */
function oddRows(source: RandomSource, n: number): PoolRow[] {
  const labels = Array.from({ length: 5 }, () => oddText(source));
  const one = (): string => labels[source.below(labels.length)]!;
  const orNone = <T>(value: T): T | null => (source.below(3) === 0 ? null : value);
  const outcomes = [0, -0, 1, 1.5, 10, -2, 1e21, 1e-7, 0.1 + 0.2, 12345.678];
  return Array.from({ length: n }, () => ({
    grower: one(),
    outing: one(),
    band: one(),
    arm: one(),
    outcome: orNone(outcomes[source.below(outcomes.length)]!),
    status: source.below(5) === 0 ? "lost" : "graded",
    box: orNone(oddText(source)),
    region: orNone(one()),
    cleanTake: orNone(source.below(2) === 0),
  }));
}

describe("the canonical text", () => {
  it.each([1, 2, 7, 40, 400, 3000])("is that of JSON lines sorted, for %i rows with odd labels", (n) => {
    const source = seededSource(`odd ${n}`);
    for (let round = 0; round < 5; round++) {
      const rows = oddRows(source, n);
      expect(canonicalTable(poolTable(rows)).sha256).toBe(sha256Of(plainLines(rows).join("")));
    }
  });

  it("is that of JSON lines sorted where all texts are plain and each box has its own", () => {
    const source = seededSource("plain");
    const rows = oddRows(source, 2000).map(
      (row, i): PoolRow => ({
        ...row,
        grower: `g${i % 9}`,
        outing: `o${i % 90}`,
        band: "Cfb",
        arm: `a${i % 4}`,
        box: `b-${(i * 7919) % 2000}`,
      }),
    );
    expect(canonicalTable(poolTable(rows)).sha256).toBe(sha256Of(plainLines(rows).join("")));
  });

  it("is the pool's of today", () => {
    for (const { rows } of reference.trials) {
      expect(canonicalTable(poolTable(rows)).sha256).toBe(poolTrial(rows).data.sha256);
    }
  });

  it("names the arms an outing could have had, where that is known", () => {
    const rows = oddRows(seededSource("available"), 300);
    const labels = ["", "a b", 'a "b"', "b"];
    const table = poolTable(rows);
    const availability = table.columns.outing.map((outing) => outing % labels.length);
    const withAvailability: PoolTable = {
      ...table,
      columns: { ...table.columns, labels: { ...table.columns.labels, availability: labels }, availability },
    };
    const { outing } = table.columns.labels;
    const lines = plainLines(rows, (row) => labels[outing.indexOf(row.outing) % labels.length]!);
    expect(canonicalTable(withAvailability).sha256).toBe(sha256Of(lines.join("")));
  });

  it("may be hashed by another SHA-256", () => {
    const table = poolTable(reference.trials[0]!.rows);
    expect(canonicalTable(table, createHash("sha256")).sha256).toBe(canonicalTable(table).sha256);
  });

  it("has no place for an infinite outcome", () => {
    const rows = [
      { ...reference.trials[0]!.rows[0]!, outcome: Number.POSITIVE_INFINITY, status: "graded" as const },
    ];
    expect(() => canonicalTable(poolTable(rows))).toThrow("An outcome is a finite number; got Infinity.");
  });
});

describe("the canonical table", () => {
  it("is the same to the last entry whatever order the rows and labels came in", () => {
    const rows = oddRows(seededSource("order"), 500).map((row, i) => ({ ...row, box: String(i) }));
    const table = poolTable(rows);
    const shuffled = seededSource("shuffle").shuffle(rows);
    expect(readBack(canonicalTable(poolTable(shuffled)).table)).toEqual(
      readBack(canonicalTable(table).table),
    );
    const { columns, ...rest } = table;
    const last = columns.labels.arm.length - 1;
    const backwards = {
      ...rest,
      columns: {
        ...columns,
        labels: { ...columns.labels, arm: [...columns.labels.arm].reverse() },
        arm: columns.arm.map((arm) => last - arm),
      },
    };
    expect(canonicalTable(backwards).table.columns).toEqual(canonicalTable(table).table.columns);
    expect(canonicalTable(backwards).sha256).toBe(canonicalTable(table).sha256);
  });

  it("holds the rows it was given", () => {
    const rows = oddRows(seededSource("rows"), 200);
    const lines = plainLines(readBack(canonicalTable(poolTable(rows)).table));
    expect(lines).toEqual(plainLines(rows));
  });
});

/** The table's rows, told by its own columns. */
function readBack({ columns, region, box, cleanTake }: PoolTable): PoolRow[] {
  const { labels } = columns;
  const decoder = new TextDecoder();
  return Array.from({ length: columns.n }, (_, row) => {
    const text = box && box.index[row]! >= 0 ? box.index[row]! : null;
    const known = cleanTake ? cleanTake[row]! : -1;
    return {
      grower: labels.grower[columns.grower[row]!]!,
      outing: labels.outing[columns.outing[row]!]!,
      band: labels.band[columns.band[row]!]!,
      arm: labels.arm[columns.arm[row]!]!,
      outcome: Number.isNaN(columns.outcome[row]!) ? null : columns.outcome[row]!,
      status: columns.lost[row] === 1 ? "lost" : "graded",
      region: region && region.index[row]! >= 0 ? region.labels[region.index[row]!]! : null,
      box:
        text === null
          ? null
          : decoder.decode(box!.texts.bytes.subarray(box!.texts.ends[text - 1] ?? 0, box!.texts.ends[text])),
      cleanTake: known < 0 ? null : known === 1,
    };
  });
}
