import { afterAll, describe, expect, it } from "vitest";
import { poolTrial } from "@/lib/engine/statistics/pool-trial";
import { reference } from "../../engine/statistics/reference";
import { csvOf, runIn, scratchFolder } from "../capture";

const folder = scratchFolder();
afterAll(folder.remove);

const columns = ["grower", "outing", "band", "arm", "outcome", "status"];
const trial = reference.trials[3]!;
folder.write("trial.csv", csvOf(columns, trial.rows));
folder.write("small.csv", csvOf(columns, reference.trials[0]!.rows));

describe("grainlot pool --json", () => {
  it("gives R's figures from the file", async () => {
    const { exitCode, stdout, stderr } = await runIn(folder.path, "pool", "trial.csv", "--json");
    expect([exitCode, stderr]).toEqual([0, ""]);
    const report = JSON.parse(stdout);
    expect(report.data.rows).toBe(trial.rows.length);
    expect(report.cells.length).toBe(trial.cells.length);
    for (const cell of trial.cells) {
      const ours = report.cells.find((one: typeof cell) => one.band === cell.band && one.arm === cell.arm);
      expect(ours).toMatchObject({ boxes: cell.boxes, outings: cell.outings, growers: cell.growers });
      expect(ours.lower).toBeCloseTo(cell.lower!, 9);
      expect(ours.upper).toBeCloseTo(cell.upper!, 9);
    }
    expect(report.rank.chiSquare).toBeCloseTo(trial.rank.chiSquare, 8);
    expect(report.rank.clustered.statistic).toBeCloseTo(trial.hotelling.statistic, 8);
  });

  it("has these keys and no others", async () => {
    const report = JSON.parse((await runIn(folder.path, "pool", "small.csv", "--json")).stdout);
    expect(Object.keys(report)).toEqual(["engine", "data", "model", "cells", "rank", "loss"]);
    expect(Object.keys(report.data)).toEqual(["rows", "analysed", "lost", "sha256"]);
    expect(report.model).toBeNull();
    expect(Object.keys(report.cells[0])).toEqual([
      "band",
      "arm",
      "boxes",
      "outings",
      "growers",
      "estimate",
      "se",
      "df",
      "lower",
      "upper",
    ]);
    expect(Object.keys(report.rank)).toEqual(["chiSquare", "df", "p", "clustered"]);
    expect(Object.keys(report.rank.clustered)).toEqual(["statistic", "df1", "df2", "p", "method"]);
  });

  it("counts graded boxes without an outcome as unmeasured, and loses none", async () => {
    const { data, loss } = JSON.parse((await runIn(folder.path, "pool", "trial.csv", "--json")).stdout);
    const unmeasured = trial.rows.filter((row) => row.status === "graded" && row.outcome === null).length;
    expect(unmeasured).toBeGreaterThan(0);
    expect(data.rows - data.analysed - data.lost).toBe(unmeasured);
    expect(loss.reduce((sum: number, one: { unmeasured: number }) => sum + one.unmeasured, 0)).toBe(
      unmeasured,
    );
  });

  it("gives the same bytes for the same rows in any order, and another p for another seed", async () => {
    folder.write("reversed.csv", csvOf(columns, [...reference.trials[0]!.rows].reverse()));
    const [first, reversed, seeded] = await Promise.all([
      runIn(folder.path, "pool", "small.csv", "--json"),
      runIn(folder.path, "pool", "reversed.csv", "--json"),
      runIn(folder.path, "pool", "small.csv", "--json", "--seed", "7"),
    ]);
    expect(reversed.stdout).toBe(first.stdout);
    const p = (output: string): number => JSON.parse(output).rank.clustered.p;
    expect(p(seeded.stdout)).not.toBe(p(first.stdout));
    expect(p(seeded.stdout)).toBeCloseTo(p(first.stdout), 1);
  });

  it("is the same engine as everybody else's", async () => {
    const { stdout } = await runIn(folder.path, "pool", "trial.csv", "--json", "--level", "0.8");
    const result = poolTrial(trial.rows, { level: 0.8 });
    const report = JSON.parse(stdout);
    expect(report.data.sha256).toBe(result.data.sha256);
    expect(report.cells[0].upper).toBe(result.cells[0]!.mean.upper);
  });
});

describe("the table", () => {
  const row = { grower: "g", outing: "o", band: "Cfb", arm: "a", outcome: 1, status: "graded" };
  const other = { ...row, arm: "b", outcome: 2 };

  it("may have its columns in any order, others beside them, a byte order mark, CR LF, quotes and spaces", async () => {
    folder.write(
      "odd.csv",
      '\uFEFFnote,status,outcome,arm,"band",outing,grower,box\r\n"a, ""b""",graded, 2 ,"rice, 1:1",Cfb,o,g,1\r\n' +
        "\r\nx,lost,,barley,Cfb,o,g,2\r\ny,graded,3,barley,Cfb,o,g,3",
    );
    const { exitCode, stdout, stderr } = await runIn(folder.path, "pool", "odd.csv", "--json");
    expect(exitCode).toBe(0);
    expect(stderr).toBe(
      "grainlot pool: the file begins with a byte order mark.\n" +
        "grainlot pool: lines end in CR LF.\n" +
        'grainlot pool: columns not used: "note".\n',
    );
    const { cells, data } = JSON.parse(stdout);
    expect(data).toMatchObject({ rows: 3, analysed: 2, lost: 1 });
    expect(cells.map(({ arm, estimate }: { arm: string; estimate: number }) => [arm, estimate])).toEqual([
      ["barley", 3],
      ["rice, 1:1", 2],
    ]);
  });

  it("may give a lost box an outcome, which is not used and said", async () => {
    folder.write("lost.csv", csvOf(columns, [row, other, { ...row, status: "lost", outcome: 4 }]));
    const { stdout, stderr } = await runIn(folder.path, "pool", "lost.csv", "--json");
    expect(JSON.parse(stdout).data).toMatchObject({ analysed: 2, lost: 1 });
    expect(stderr).toContain("1 lost boxes carry an outcome");
  });

  it("may hold equal rows where no box column tells them apart", async () => {
    folder.write("equal.csv", csvOf(columns, [row, row, other]));
    expect(JSON.parse((await runIn(folder.path, "pool", "equal.csv", "--json")).stdout).data.rows).toBe(3);
  });
});

describe("tables of other programs", () => {
  const pooled = async (name: string, text: string) => {
    folder.write(name, text);
    const { exitCode, stdout, stderr } = await runIn(folder.path, "pool", name, "--json");
    expect([exitCode, stderr.includes("Nothing was pooled")]).toEqual([0, false]);
    return { report: JSON.parse(stdout), stderr };
  };
  const plain = csvOf(columns, reference.trials[0]!.rows);

  it.each([
    ["semicolons", ";"],
    ["tabs", "\t"],
  ])("may be separated by %s, which is said", async (word, separator) => {
    const { report, stderr } = await pooled("other.csv", plain.replaceAll(",", separator));
    expect(report).toEqual((await pooled("plain.csv", plain)).report);
    expect(stderr).toBe(`grainlot pool: fields are separated by ${word}.\n`);
  });

  it("may have decimal commas where semicolons separate, which is said", async () => {
    const lines = [
      "g;o;Cfb;a;2,5;graded",
      "g;o;Cfb;b;,5;graded",
      "g;o;Cfb;c;-1e-1;graded",
      "g;o;Cfb;d;3;graded",
    ];
    const { report, stderr } = await pooled("comma.csv", `${columns.join(";")}\n${lines.join("\n")}\n`);
    expect(report.cells.map(({ estimate }: { estimate: number }) => estimate)).toEqual([2.5, 0.5, -0.1, 3]);
    expect(stderr).toContain("decimal commas were read in 2 outcomes.");
  });

  it("may be quoted throughout, also over lines", async () => {
    const quoted = plain.replaceAll(/[^,\n]+/g, (field) => `"${field}"`);
    expect((await pooled("quoted.csv", quoted)).report).toEqual((await pooled("plain.csv", plain)).report);
    const long = plain
      .replaceAll("\n", ',"a ""note"",\nover lines"\n')
      .replace(',"a ""note"",\nover lines"', ",note");
    const { report, stderr } = await pooled("long.csv", long);
    expect(report).toEqual((await pooled("plain.csv", plain)).report);
    expect(stderr).toBe('grainlot pool: columns not used: "note".\n');
  });

  it("may say which arms could have been cooked; an arm that is not among them is said", async () => {
    const text = ["b a", "a b", "a b"].map((available, i) => `g,o,Cfb,${"abc"[i]},${i},graded,${available}`);
    const { stderr } = await pooled("available.csv", `${columns},available\n${text.join("\n")}\n`);
    expect(stderr).toMatch(/^grainlot pool: 1 boxes hold an arm that is not among the arms available/);
  });
});

describe("the report to read", () => {
  it("shows every cell's figures, a chart, the rank test by group and the losses", async () => {
    const { exitCode, stdout } = await runIn(folder.path, "pool", "trial.csv");
    expect(exitCode).toBe(0);
    expect(stdout).toContain("trial.csv: 334 boxes of 45 growers");
    const result = poolTrial(trial.rows);
    const lines = stdout.split("\n");
    for (const { band, arm, mean } of result.cells) {
      const inBand = lines.slice(lines.indexOf(band));
      const line = inBand.find((text) => text.startsWith(`${arm} `))!;
      expect(line).toContain(`${mean.estimate!.toFixed(2)}`);
      expect(line).toContain(`${mean.lower!.toFixed(2)} to ${mean.upper!.toFixed(2)}`);
      expect(line).toMatch(mean.upper! > 4 ? /├─*●─+$/ : /├─*●─*┤$/);
    }
    expect(stdout).toMatch(/all groups\s+p \S+\s+\(F 13\.85 on 5 and 40, 45 growers\)/);
    expect(stdout).toMatch(/A\s+4 of\s+65\s+6\.2 %/);
  });

  it("says in words what can't be said in numbers", async () => {
    const rows = [1, 2].map((outcome) => ({
      grower: "g",
      outing: "o",
      band: "Cfb",
      arm: `a${outcome}`,
      outcome,
      status: "graded",
    }));
    folder.write("one-grower.csv", csvOf(columns, rows));
    const { stdout } = await runIn(folder.path, "pool", "one-grower.csv");
    expect(stdout).toContain("not enough growers yet");
    expect(stdout).not.toMatch(/NaN|null|undefined/);
  });

  it("draws outcomes on their own scale where they are not growth 0–4", async () => {
    const rows = trial.rows.map((row) => ({
      ...row,
      outcome: row.outcome === null ? null : row.outcome * 100,
    }));
    folder.write("grams.csv", csvOf(columns, rows));
    expect((await runIn(folder.path, "pool", "grams.csv")).stdout).toMatch(/├─*●─*┤/);
  });
});
