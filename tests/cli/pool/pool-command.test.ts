import Ajv2020 from "ajv/dist/2020";
import { afterAll, describe, expect, it } from "vitest";
import { poolTrial } from "@/tests/engine/statistics/pool-trial";
import { reference as mixed, type ReferenceData } from "../../engine/statistics/mixed/reference";
import { reference } from "../../engine/statistics/reference";
import { csvOf, runIn, scratchFolder } from "../capture";

const folder = scratchFolder();
afterAll(folder.remove);

const columns = ["grower", "outing", "band", "arm", "outcome", "status"];
const trial = reference.trials[3]!;
folder.write("trial.csv", csvOf(columns, trial.rows));
type Named = { readonly band: string; readonly arm: string; readonly first: string; readonly second: string };
type Figures = { readonly estimate: number; readonly se: number; readonly df: number };

/** Estimates and standard errors to 1e-6, df to 1e-3, relative. */
function expectAgree(estimate: number, ours: Omit<Figures, "estimate">, theirs: Figures): void {
  expect(Math.abs(estimate - theirs.estimate)).toBeLessThan(1e-6 * Math.max(1, Math.abs(theirs.estimate)));
  expect(Math.abs(ours.se / theirs.se - 1)).toBeLessThan(1e-6);
  expect(Math.abs(ours.df / theirs.df - 1)).toBeLessThan(1e-3);
}

/** A set's name as the column has it: any list of arms will do, as long as each set has its own. */
function armsOfSet({ arm, set }: ReferenceData, wanted: number): string {
  return `${[...new Set(arm.filter((_, row) => set[row] === wanted))].map((own) => `a${own}`).join(" ")} s${wanted}`;
}

folder.write("small.csv", csvOf(columns, reference.trials[0]!.rows));

describe("grainlot pool --json", () => {
  // lme4, lmerTest and emmeans on invented trials: tests/fixtures/reference/mixed/generate.R.
  const terms = { outing: "outing", grower: "grower", growerArm: "grower-arm" } as const;
  it.each(mixed.cases)("gives lme4's figures from the file: $name", async (one) => {
    const { data } = one;
    const set = (row: number): string => armsOfSet(data, data.set[row]!);
    const rows = data.y.map((outcome, row) => ({
      grower: `g${data.grower[row]}`,
      outing: `o${data.outing[row]}`,
      band: `b${data.band[row]}`,
      arm: `a${data.arm[row]}`,
      outcome,
      status: "graded",
      available: set(row),
    }));
    folder.write("mixed.csv", csvOf([...columns, "available"], rows));
    const random = [one.random].flat().map((term) => terms[term]);
    const { stdout } = await runIn(folder.path, "pool", "mixed.csv", "--json", "--random", random.join(","));
    const report = JSON.parse(stdout);
    expect(report.model.converged).toBe(true);
    expect(Math.abs(report.model.criterion / one.criterion - 1)).toBeLessThan(1e-6);
    for (const { band, arm, ...mean } of one.means) {
      const ours = report.cells.find((cell: Named) => cell.band === `b${band}` && cell.arm === `a${arm}`);
      expectAgree(ours.estimate, ours, mean);
    }
    for (const { band, first, second, ...pair } of one.pairs) {
      const names = [`a${first}`, `a${second}`];
      const ours = report.contrasts.find(
        (own: Named) => own.band === `b${band}` && names.includes(own.first) && names.includes(own.second),
      );
      const sign = ours.first === names[0] ? 1 : -1;
      expectAgree(sign * ours.difference, ours, pair);
    }
  });

  it("gives R's rank tests from the file", async () => {
    const { exitCode, stdout, stderr } = await runIn(folder.path, "pool", "trial.csv", "--json");
    expect([exitCode, stderr]).toEqual([0, ""]);
    const report = JSON.parse(stdout);
    expect(report.data.rows).toBe(trial.rows.length);
    expect(report.cells.length).toBe(trial.cells.length);
    expect(report.rank.chiSquare).toBeCloseTo(trial.rank.chiSquare, 8);
    expect(report.rank.clustered.statistic).toBeCloseTo(trial.hotelling.statistic, 8);
  });

  it("has the form of its JSON Schema, under a validator that isn't ours, with all options and with none", async () => {
    const schema = JSON.parse((await runIn(folder.path, "pool", "--schema")).stdout);
    const validate = new Ajv2020({ strict: true }).compile(schema);
    const asked = ["--sensitivity", "--reference", "A", "--margin", "0.5", "--level", "0.9", "--seed", "3"];
    for (const options of [[], asked, ["--random", "none"], ["--random", "outing"]]) {
      const { stdout } = await runIn(folder.path, "pool", "trial.csv", "--json", ...options);
      expect(validate(JSON.parse(stdout)), JSON.stringify(validate.errors)).toBe(true);
    }
    const { stdout } = await runIn(folder.path, "pool", "trial.csv", "--json");
    expect(validate({ ...JSON.parse(stdout), rank: null })).toBe(false);
  });

  it("does what its options ask", async () => {
    const of = async (...options: string[]) =>
      JSON.parse((await runIn(folder.path, "pool", "trial.csv", "--json", ...options)).stdout);
    const plain = await of();
    expect(plain.sensitivity).toBeNull();
    expect(plain.againstReference).toEqual([]);
    expect(plain.model.random).toEqual(["outing", "grower", "grower-arm"]);
    const outingOnly = await of("--random", "outing");
    expect(outingOnly.model.variance).toMatchObject({ grower: null, growerArm: null });
    expect(outingOnly.model.variance.outing).not.toBeNull();
    const wide = await of("--margin", "9");
    expect(plain.contrasts.map(({ verdict }: { verdict: string }) => verdict)).toContain("UNDECIDED");
    expect(wide.contrasts.every(({ verdict }: { verdict: string }) => verdict !== "UNDECIDED")).toBe(true);
    const asked = await of("--reference", "A", "--sensitivity");
    expect(asked.againstReference.every(({ reference: arm }: { reference: string }) => arm === "A")).toBe(
      true,
    );
    expect(asked.againstReference.length).toBeGreaterThan(0);
    const lost = asked.sensitivity.refits.find(({ kind }: { kind: string }) => kind === "LOST_AS_WORST");
    expect(lost.boxes).toBe(plain.data.analysed + plain.data.lost);
    expect(asked.sensitivity.growers.length).toBeGreaterThan(0);
  });

  it("counts graded boxes without an outcome as unmeasured, and loses none", async () => {
    const { data, loss } = JSON.parse((await runIn(folder.path, "pool", "trial.csv", "--json")).stdout);
    const unmeasured = trial.rows.filter((row) => row.status === "graded" && row.outcome === null).length;
    expect(unmeasured).toBeGreaterThan(0);
    expect(data.rows - data.analysed - data.lost).toBe(unmeasured);
    expect(loss.arms.reduce((sum: number, one: { unmeasured: number }) => sum + one.unmeasured, 0)).toBe(
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
    expect(report.cells[0].upper).toBe(result.analysis!.cells[0]!.upper);
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
    expect(cells.map(({ arm }: { arm: string }) => arm)).toEqual(["barley", "rice, 1:1"]);
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
      "h;p;Cfb;c;3;graded",
    ];
    const { report, stderr } = await pooled("comma.csv", `${columns.join(";")}\n${lines.join("\n")}\n`);
    const points = [
      "g,o,Cfb,a,2.5,graded",
      "g,o,Cfb,b,0.5,graded",
      "g,o,Cfb,c,-0.1,graded",
      "h,p,Cfb,c,3,graded",
    ];
    const same = await pooled("point.csv", `${columns.join(",")}\n${points.join("\n")}\n`);
    expect(report).toEqual(same.report);
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
  it("shows every cell's figures, a chart, comparisons, the rank test by group, losses and the model", async () => {
    const { exitCode, stdout } = await runIn(
      folder.path,
      "pool",
      "trial.csv",
      "--sensitivity",
      "--reference",
      "A",
    );
    expect(exitCode).toBe(0);
    expect(stdout).toContain("trial.csv: 334 boxes of 45 growers");
    const { analysis } = poolTrial(trial.rows, { sensitivity: true, reference: "A" });
    const lines = stdout.split("\n");
    for (const { band, arm, estimate, lower, upper } of analysis!.cells) {
      const inBand = lines.slice(lines.indexOf(band));
      const line = inBand.find((text) => text.startsWith(`${arm} `))!;
      expect(line).toContain(`${estimate!.toFixed(2)}`);
      expect(line).toContain(`${lower!.toFixed(2)} to ${upper!.toFixed(2)}`);
      expect(line).toMatch(upper! > 4 ? /├─*●─+$/ : lower! < 0 ? /─*●─*┤$/ : /├─*●─*┤$/);
    }
    expect(stdout).toMatch(/A - B +[+-]\d\.\d\d +[+-]\d\.\d\d to [+-]\d\.\d\d {2}p \S+ {2}\w+/);
    expect(stdout).toContain("Less A (Dunnett)");
    expect(stdout).toMatch(/lost boxes as bad as the worst +[+-]\d/);
    expect(stdout).toMatch(/all groups\s+p \S+\s+\(F 13\.85 on 5 and 40, 45 growers\)/);
    expect(stdout).toMatch(/A\s+4 of\s+65\s+6\.2 %/);
    expect(stdout).toContain("standard deviations: outing");
    expect(stdout).not.toMatch(/NaN|null|undefined/);
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
