export type CsvField = string | number | boolean | null | undefined;

/** One line by RFC 4180: comma, CRLF, quoted where a field holds a comma, a quote or a line break; nothing for null. */
export function csvLine(fields: readonly CsvField[]): string {
  return `${fields.map(csvField).join(",")}\r\n`;
}

function csvField(field: CsvField): string {
  const text = String(field ?? "");
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
