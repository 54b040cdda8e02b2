import { parse } from "csv-parse/sync";
import { afterAll, describe, expect, it } from "vitest";
import { readCsvRecords } from "@/lib/cli/table/csv-records";
import { FaultList } from "@/lib/cli/table/faults";
import type { TableForm } from "@/lib/cli/table/read-table";
import { type RandomSource, seededSource } from "@/lib/engine/random/source";
import { scratchFolder } from "../capture";

const folder = scratchFolder();
afterAll(folder.remove);

function recordsOf(content: string | Buffer) {
  folder.write("table.csv", content);
  const faults = new FaultList();
  const records: string[][] = [];
  const lines: number[] = [];
  let form: TableForm | undefined;
  readCsvRecords(`${folder.path}/table.csv`, faults, (record, line, tableForm) => {
    records.push([...record]);
    lines.push(line);
    form = tableForm;
    return true;
  });
  return { records, lines, form, faults: faults.named };
}

/** A field of anything that CSV has to quote, and of what it hasn't; without blanks at its ends. */
function randomField(source: RandomSource): string {
  const parts = [
    "a",
    "é",
    "\u{1F33E}",
    '"',
    ",",
    ";",
    "\t",
    "\n",
    "\r\n",
    " ",
    "0.5",
    "x".repeat(source.below(40)),
  ];
  const text = Array.from({ length: source.below(5) }, () => parts[source.below(parts.length)]!).join("");
  return text.replaceAll(/^[ \t\r]+|[ \t\r]+$/g, "");
}

function written(fields: readonly string[], separator: string, source: RandomSource): string {
  const cells = fields.map((field) => {
    const mustQuote = /[",;\t\r\n]/.test(field) || source.below(4) === 0;
    const blanks = () => " ".repeat(source.below(6) === 0 ? 2 : 0);
    return `${blanks()}${mustQuote ? `"${field.replaceAll('"', '""')}"` : field}${blanks()}`;
  });
  return cells.join(separator);
}

describe("records of a table", () => {
  it.each([",", ";", "\t"])("are those csv-parse reads, separated by %j", (separator) => {
    const source = seededSource(`records ${separator}`);
    for (let round = 0; round < 60; round++) {
      const width = 3 + source.below(6);
      const header = Array.from({ length: width }, (_, i) => `name${i}`).join(separator);
      const rows = Array.from({ length: source.below(30) }, () =>
        written(
          Array.from({ length: width }, () => randomField(source)),
          separator,
          source,
        ),
      );
      const end = source.below(2) === 0 ? "\n" : "\r\n";
      const mark = source.below(2) === 0 ? "" : "\uFEFF";
      const text = mark + [header, ...rows].join(end) + (source.below(2) === 0 ? end : "");
      const expected = parse(text, { bom: true, delimiter: separator, skip_empty_lines: true, trim: true });
      const { records, form, faults } = recordsOf(text);
      expect(faults).toEqual([]);
      expect(records).toEqual(expected);
      expect(form?.separators[0]).toBe({ ",": "comma", ";": "semicolon", "\t": "tab" }[separator]);
      expect(form?.byteOrderMark).toBe(mark !== "");
    }
  });

  it("come whole from a file of many pieces, with the line each begins in", () => {
    const rows = Array.from({ length: 40_000 }, (_, i) => [
      `g${i}`,
      i % 7 === 0 ? `two\nlines ${i}` : `"${i}"`,
    ]);
    const text = rows.map(([a, b]) => `${a},"${b!.replaceAll('"', '""')}"\n`).join("");
    const { records, lines } = recordsOf(`one,two\n${text}`);
    expect(records.slice(1)).toEqual(rows);
    let line = 2;
    const expected = rows.map(([, b]) => {
      const first = line;
      line += b!.split("\n").length;
      return first;
    });
    expect(lines.slice(1)).toEqual(expected);
  });

  it("may hold a field of nearly 1 MB, but no longer one", () => {
    const near = "y".repeat(1024 * 1024 - 10);
    expect(recordsOf(`one,two\n${near},2\n`).records[1]).toEqual([near, "2"]);
    expect(recordsOf(`one,two\n${near}${near},2\n`).faults[0]).toMatchObject({
      line: 2,
      kind: "lines too long",
    });
  });

  it("end where the taker has had enough", () => {
    folder.write("table.csv", "a,b\n1,2\n3,4\n");
    let taken = 0;
    readCsvRecords(`${folder.path}/table.csv`, new FaultList(), () => ++taken < 2);
    expect(taken).toBe(2);
  });
});
