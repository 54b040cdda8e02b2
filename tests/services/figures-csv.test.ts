import { describe, expect, it } from "vitest";
import { poolColumns } from "@/lib/engine/statistics/pool-columns";
import { NO_EXTRAS } from "@/lib/engine/statistics/pool-extras";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import { csvLine } from "@/lib/services/csv";
import { FIGURE_COLUMNS, figuresCsv } from "@/lib/services/figures-csv";
import { simulateTrial } from "@/tests/engine/statistics/simulated-trial";

/** RFC 4180, section 2: rules 5 to 7 with their examples. */
describe("a line of CSV", () => {
  it("quotes commas, quotes and line breaks only, and ends in CRLF", () => {
    expect(csvLine(["aaa", "b,bb", "ccc"])).toBe('aaa,"b,bb",ccc\r\n');
    expect(csvLine(["aaa", "b\r\nbb", "ccc"])).toBe('aaa,"b\r\nbb",ccc\r\n');
    expect(csvLine(["aaa", 'b"bb', "ccc"])).toBe('aaa,"b""bb",ccc\r\n');
    expect(csvLine([1.5, null, undefined, 0])).toBe("1.5,,,0\r\n");
  });
});

const rows = simulateTrial(
  { growers: 30, arms: 3, growerArmSd: 0.3, armEffects: [0, 0, 1.2] },
  "figures csv",
);
const pooled = poolColumns(poolTable(rows), undefined, { permutations: 199 });

/** Codes of invented trials hold neither commas nor quotes. */
function read(csv: string): Record<string, string>[] {
  const [head, ...lines] = csv.trimEnd().split("\r\n");
  const names = head!.split(",");
  return lines.map((line) => {
    const fields = line.split(",");
    expect(fields).toHaveLength(names.length);
    return Object.fromEntries(names.map((name, i) => [name, fields[i]!]));
  });
}

describe("the figures of a result as CSV", () => {
  const lines = read(figuresCsv(pooled.result));

  it("gives every difference with its interval, to the last digit, and what it can be traced by", () => {
    const { contrasts } = pooled.result.analysis!;
    expect(contrasts.length).toBeGreaterThan(5);
    for (const one of contrasts) {
      const line = lines.find(
        ({ kind, band, first, second }) =>
          kind === "difference" && band === one.band && first === one.first && second === one.second,
      )!;
      expect(Number(line.estimate)).toBe(one.difference);
      expect(Number(line.lower)).toBe(one.lower);
      expect(Number(line.p)).toBe(one.p);
      expect(line.verdict).toBe(one.verdict ?? "");
    }
    for (const line of lines) {
      expect(line.cut_sha256).toBe(pooled.result.data.sha256);
      expect(line.engine).toBe(pooled.result.engine);
    }
  });

  it("gives usable grams with the differences between recipes", () => {
    const usableMassG = Float64Array.from(rows, ({ outcome }, i) => 100 * (outcome ?? 0) + (i % 7));
    const { result } = poolColumns(poolTable(rows), { ...NO_EXTRAS, usableMassG }, { permutations: 199 });
    const { cells, contrasts } = result.analysis!.usable!;
    const figures = read(figuresCsv(result));
    const estimates = (kind: string) =>
      figures.filter((line) => line.kind === kind).map(({ estimate }) => Number(estimate));
    expect(cells.length).toBeGreaterThan(5);
    expect(estimates("usable-grams-by-model")).toEqual(cells.map(({ estimate }) => estimate));
    expect(estimates("usable-grams-difference")).toEqual(contrasts.map(({ difference }) => difference));
  });

  it("gives means by season", () => {
    const table = poolTable(rows);
    const season = {
      labels: ["2026-03 spring", "2026-06 summer", "2026-09 autumn"] as const,
      index: table.columns.outing.map((outing) => outing % 3),
    };
    const { result } = poolColumns(table, { ...NO_EXTRAS, season }, { permutations: 199, sensitivity: true });
    const { cells } = result.analysis!.seasons!;
    expect(cells.length).toBe(9);
    const figures = read(figuresCsv(result)).filter(({ kind }) => kind === "mean-by-season");
    expect(figures.map((line) => [line.group, line.first, Number(line.estimate)])).toEqual(
      cells.map(({ group, arm, estimate }) => [group, arm, estimate]),
    );
  });

  it("gives the plain means and what they rest on", () => {
    for (const { band, arm, mean } of pooled.result.cells) {
      const line = lines.find(
        (one) => one.kind === "mean-over-growers" && one.band === band && one.first === arm,
      )!;
      expect([Number(line.estimate), Number(line.boxes), Number(line.growers)]).toEqual([
        mean.estimate,
        mean.boxes,
        mean.growers,
      ]);
    }
  });

  it("says of a held back figure that it is, and nothing of it", () => {
    const two = [...new Set(rows.filter(({ band }) => band === "Csa").map(({ grower }) => grower))].slice(
      0,
      2,
    );
    const few = rows.filter(({ band, grower }) => band !== "Csa" || two.includes(grower));
    const published = withholdSmallCells(poolColumns(poolTable(few), undefined, { permutations: 199 }));
    const held = read(figuresCsv(published)).filter(
      ({ band, kind }) => band === "Csa" && kind === "mean-over-growers",
    );
    expect(held.length).toBeGreaterThan(0);
    for (const line of held) {
      expect(line).toMatchObject({ reason: "WITHHELD", estimate: "", lower: "", boxes: "", growers: "" });
    }
  });

  it("names its columns once, and fills no other", () => {
    expect(Object.keys(lines[0]!)).toEqual([...FIGURE_COLUMNS]);
  });
});
