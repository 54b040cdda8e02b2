import type { FaultList } from "./faults";
import { readTable, type TableForm } from "./read-table";

/**
 * Hands a table's records as texts, the header first, to `take` with the line each begins in and the table's form;
 * `take` answers whether to go on. See `readTable` for what is accepted. For tables of moderate size: each field
 * becomes a string.
 */
export function readCsvRecords(
  path: string,
  faults: FaultList,
  take: (record: readonly string[], line: number, form: TableForm) => boolean,
): void {
  let form: TableForm;
  readTable(path, faults, {
    header(names, line, tableForm) {
      form = tableForm;
      return take(names, line, form);
    },
    record(bytes, scanner, line) {
      return take(scanner.texts(bytes), line, form);
    },
  });
}
