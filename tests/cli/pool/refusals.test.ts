import { mkdirSync, truncateSync } from "node:fs";
import { join } from "node:path";
import { afterAll, describe, expect, it } from "vitest";
import { csvOf, runIn, scratchFolder } from "../capture";

const folder = scratchFolder();
afterAll(folder.remove);

const columns = ["grower", "outing", "band", "arm", "outcome", "status", "box"];
const header = columns.join(",");
const good = "g1,o1,Cfb,rice,3,graded,b1";

async function refusal(content: string | Buffer): Promise<string> {
  folder.write("table.csv", content);
  const { exitCode, stdout, stderr } = await runIn(folder.path, "pool", "table.csv", "--json");
  expect(exitCode).toBe(2);
  expect(stdout).toBe("");
  return stderr;
}

describe("a faulty row is named by line and column, with what to do", () => {
  it.each([
    [
      "no number",
      "g1,o1,Cfb,rice,much,graded,b2",
      'table.csv:3: column 5 "outcome": "much" is not a number. Write',
    ],
    ["decimal comma", 'g1,o1,Cfb,rice,"2,5",graded,b2', 'column 5 "outcome": "2,5" is not a number'],
    ["hexadecimal", "g1,o1,Cfb,rice,0x1,graded,b2", '"0x1" is not a number'],
    ["infinite", "g1,o1,Cfb,rice,1e999,graded,b2", '"1e999" is not a number'],
    [
      "unknown status",
      "g1,o1,Cfb,rice,3,Graded,b2",
      'table.csv:3: column 6 "status": "Graded" is no status. Write',
    ],
    ["empty status", "g1,o1,Cfb,rice,3,,b2", 'column 6 "status": "" is no status'],
    ["empty grower", ",o1,Cfb,rice,3,graded,b2", 'table.csv:3: column 1 "grower": The field is empty.'],
    ["empty arm", "g1,o1,Cfb, ,3,graded,b2", 'column 4 "arm": The field is empty.'],
    [
      "two growers",
      "g2,o1,Cfb,rice,3,graded,b2",
      'column 1 "grower": Outing "o1" has the grower "g2" here and "g1" in line 2',
    ],
    [
      "two bands",
      "g1,o1,Csb,rice,3,graded,b2",
      'column 3 "band": Outing "o1" has the band "Csb" here and "Cfb" in line 2',
    ],
    [
      "doubled box",
      "g1,o1,Cfb,rice,3,graded,b1",
      'column 7 "box": Box "b1" already stands in line 2. Remove',
    ],
    [
      "a quote inside",
      'g1,o1,Cfb,rice 5" deep,3,graded,b2',
      'table.csv:3: column 4 "arm": A double quote is out of place.',
    ],
    [
      "text behind a quote",
      'g1,o1,Cfb,"rice"s,3,graded,b2',
      'table.csv:3: column 4 "arm": A double quote is out',
    ],
    ["too few fields", "g1,o1,Cfb,rice", "table.csv:3: The line has 4 fields, the header 7."],
    [
      "too many fields",
      "g1,o1,Cfb,rice,1:1,3,graded,b2",
      "table.csv:3: The line has 8 fields, the header 7.",
    ],
  ])("%s", async (_, line, message) => {
    expect(await refusal(`${header}\n${good}\n${line}\n`)).toContain(message);
  });

  it("counts blank lines and lines inside quotes, so that the number is the editor's", async () => {
    const rows = `${header}\r\n\r\n"g1\r\nx",o1,Cfb,rice,3,graded,b1\r\n\r\ng2,o2,Cfb,rice,bad,graded,b2\r\n`;
    expect(await refusal(rows)).toContain('table.csv:6: column 5 "outcome": "bad"');
  });

  it("an outing with two regions or two sets of available arms", async () => {
    const lines = [
      "g,o,Cfb,a,1,graded,north,a b",
      "g,o,Cfb,b,2,graded,south,b a",
      "g,o,Cfb,b,2,graded,north,a",
    ];
    const stderr = await refusal(
      `grower,outing,band,arm,outcome,status,region,available\n${lines.join("\n")}\n`,
    );
    expect(stderr.split("\n").slice(0, 2)).toEqual([
      'table.csv:3: column 7 "region": Outing "o" has the region "south" here and "north" in line 2. An outing is one grower at one place on one day: give different outings different names.',
      'table.csv:4: column 8 "available": Outing "o" has the arms available "a" here and "a b" in line 2. An outing is one grower at one place on one day: give different outings different names.',
    ]);
  });

  it("goes on behind a line with a quote out of place", async () => {
    const stderr = await refusal(
      `${header}\n${good}\ng1,o1,C"fb,oat,3,graded,b2\ng1,o1,Cfb,oat,x,graded,b3\n`,
    );
    expect(stderr).toContain("table.csv:3: column 3");
    expect(stderr).toContain('table.csv:4: column 5 "outcome": "x"');
  });

  it("names several faults of one line and of many", async () => {
    const stderr = await refusal(`${header}\n,o1,Cfb,rice,x,maybe,\n${good}\ng1,o1,Cfb,rice,y,graded,\n`);
    expect(stderr.match(/^table\.csv:2: /gm)?.length).toBe(3);
    expect(stderr).toContain('table.csv:4: column 5 "outcome": "y"');
  });

  it("names the first 1,000 and counts the rest by kind", async () => {
    const bad = Array.from({ length: 1500 }, (_, i) => `g1,o1,Cfb,rice,x,graded,n${i}`);
    const worse = Array.from({ length: 20 }, () => "g1,o1,Cfb,rice,3,none,");
    const stderr = await refusal(`${[header, ...bad, ...worse].join("\n")}\n`);
    expect(stderr.match(/^table\.csv:\d+: /gm)?.length).toBe(1000);
    expect(stderr).toContain("table.csv: and 500 more: outcomes that are not numbers.");
    expect(stderr).toContain("table.csv: and 20 more: unknown status.");
  });

  it("shows long and strange values shortened and escaped", async () => {
    const stderr = await refusal(`${header}\ng1,o1,Cfb,rice,${"9x".repeat(500)}\u001b[31m,graded,\n`);
    expect(stderr).toContain(`"${"9x".repeat(20)}…" is not a number`);
    expect(stderr).not.toContain("\u001b");
  });
});

describe("a file that is no table", () => {
  it.each([
    ["empty", "", "table.csv: The file is empty."],
    ["blank lines only", "\n\n", "table.csv: The file is empty."],
    ["header only", `${header}\n`, "table.csv: There is a header but no row."],
    [
      "header missing",
      `${good}\n${good}\n`,
      "table.csv:1: The header lacks grower, outing, band, arm, outcome, status",
    ],
    ["column missing", "grower,outing,band,arm,status\ng,o,b,a,lost\n", "The header lacks outcome;"],
    [
      "column doubled",
      `${header},arm\n${good},rice\n`,
      'table.csv:1: column 8 "arm": The header already has this name in column 4',
    ],
    [
      "header separated in two ways",
      `grower,outing,band;arm,outcome,status\n${good}\n`,
      "table.csv:1: The header is separated by commas and semicolons; by commas alone it lacks band, arm.",
    ],
    [
      "rows separated otherwise than the header",
      `${header}\n${good.replaceAll(",", ";").replace("3", "2,5")}\n`,
      "table.csv:2: The line is separated by semicolons, the header by commas. Use one",
    ],
    [
      "decimal marks of two kinds",
      `${header}\ng1,o1,Cfb,rice,2~5,graded,b1\ng1,o1,Cfb,rice,2.5,graded,b2\n`
        .replaceAll(",", ";")
        .replace("~", ","),
      'column 5 "outcome": "2.5" has another decimal mark than an outcome above.',
    ],
    ["open quote", `${header}\n${good}\n"g1,o1,Cfb,rice,3,graded,b2\n`, "A double quote is out of place."],
    [
      "not UTF-8",
      Buffer.from(`${header}\n${good}\ng1,o1,Cfb,caf\xe9,3,graded,b2\n`, "latin1"),
      "table.csv:3: The line is not UTF-8 text. Save",
    ],
    [
      "UTF-16",
      Buffer.from(`\uFEFF${header}\n${good}\n`, "utf16le"),
      "table.csv:1: The line is not UTF-8 text.",
    ],
    [
      "a quoted field of 3 MB",
      `${header}\n"${"x\n".repeat(1.5e6)}\n`,
      "table.csv:2: The line is longer than 1 MB.",
    ],
    [
      "a line of 10 MB",
      `${header}\n${good}\n${"g,".repeat(5e6)}`,
      "table.csv:3: The line is longer than 1 MB.",
    ],
    ["a header of 3 MB", "grower,".repeat(5e5), "table.csv:1: The line is longer than 1 MB."],
    [
      "a header of very many columns",
      `${header}${",x".repeat(5000)}\n`,
      "table.csv:1: The header names more than 4096",
    ],
    [
      "one arm",
      `${header}\n${good}\ng1,o1,Cfb,rice,2,graded,b2\n`,
      'table.csv: column 4 "arm": All boxes have the arm "rice".',
    ],
    [
      "no variation",
      `${header}\n${good}\ng1,o1,Cfb,oat,3,graded,b2\ng1,o1,Cfb,oat,2,lost,b3\n`,
      'table.csv: column 5 "outcome": Every measured box has the outcome 3.',
    ],
    [
      "no outcome",
      `${header}\n${good.replace("3", "")}\ng1,o1,Cfb,oat,,lost,b2\n`,
      'table.csv: column 5 "outcome": No box has an outcome.',
    ],
    [
      "very many arms",
      `${header}\n${Array.from({ length: 300 }, (_, i) => `g1,o1,Cfb,a${i},${i},graded,\n`).join("")}`,
      "table.csv:202: The column arm holds more than 200 different names",
    ],
    ["a line of 3 MB", `${header}\n${"x".repeat(3e6)}\n`, "table.csv:2: The line is longer than 1 MB."],
  ])("%s", async (_, content, message) => {
    expect(await refusal(content)).toContain(message);
  });

  it("a file of 2 GB, at once and in little memory", async () => {
    folder.write("huge.csv", `${header}\n${good}\n`);
    truncateSync(join(folder.path, "huge.csv"), 2 ** 31);
    const peakBefore = process.resourceUsage().maxRSS;
    const { exitCode, stderr } = await runIn(folder.path, "pool", "huge.csv");
    expect([exitCode, stderr.split("\n")[0]]).toEqual([
      2,
      "huge.csv: The file is larger than 1 GB, more than the command takes. Leave out columns that aren't needed, or split it.",
    ]);
    expect(process.resourceUsage().maxRSS - peakBefore).toBeLessThan(100 * 1024);
    truncateSync(join(folder.path, "huge.csv"), 9e8);
    expect((await runIn(folder.path, "pool", "huge.csv")).stderr).toContain(
      "huge.csv:3: The line is longer than 1 MB.",
    );
  });

  it("finds the bad line far into a large file", async () => {
    const rows = Array.from({ length: 20_000 }, (_, i) => `g${i},o${i},Cfb,café,3,graded,b${i}\n`).join("");
    const bytes = Buffer.concat([Buffer.from(`${header}\n${rows}`), Buffer.from([0x67, 0xff, 0x0a])]);
    expect(await refusal(bytes)).toContain("table.csv:20002: The line is not UTF-8 text.");
  });

  it("a file that is not there, or a folder", async () => {
    const missing = await runIn(folder.path, "pool", "nowhere.csv");
    expect(missing).toMatchObject({ exitCode: 2, stdout: "" });
    expect(missing.stderr).toContain("nowhere.csv: There is no such file.");
    mkdirSync(join(folder.path, "sub"));
    expect((await runIn(folder.path, "pool", "sub")).stderr).toContain("This is a folder.");
  });

  it("says that nothing was pooled", async () => {
    expect(await refusal("")).toContain("Nothing was pooled");
  });
});

describe("numbers of lines hold in a good file too", () => {
  it("accepts 50,000 rows across many chunks", async () => {
    const rows = Array.from({ length: 50_000 }, (_, i) => ({
      grower: `g${i % 40}`,
      outing: `o${i % 400}`,
      band: "Cfb",
      arm: `a${i % 7}`,
      outcome: (i * 7) % 5,
      status: "graded",
      box: i,
    }));
    folder.write("large.csv", csvOf(columns, rows));
    const { stdout } = await runIn(folder.path, "pool", "large.csv", "--json");
    expect(JSON.parse(stdout).data.rows).toBe(50_000);
  });
});
