import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { run } from "@/lib/cli/run";

/** A folder of its own for a test's files; `remove` deletes it. */
export function scratchFolder(): {
  path: string;
  write: (name: string, content: string | Buffer) => void;
  remove: () => void;
} {
  const path = mkdtempSync(join(tmpdir(), "grainlot-cli-"));
  return {
    path,
    write: (name, content) => writeFileSync(join(path, name), content),
    remove: () => rmSync(path, { recursive: true, force: true }),
  };
}

/** Runs the command line in this process and gives back what it wrote. */
export async function runIn(
  directory: string,
  ...argv: string[]
): Promise<{ exitCode: number; stdout: string; stderr: string }> {
  let stdout = "";
  let stderr = "";
  const exitCode = await run(argv, {
    directory,
    stdout: (text) => {
      stdout += text;
    },
    stderr: (text) => {
      stderr += text;
    },
  });
  return { exitCode, stdout, stderr };
}

/** Rows of any shape as a CSV text with the given columns; missing and null values are empty. */
export function csvOf(columns: readonly string[], rows: readonly object[]): string {
  const line = (row: object): string =>
    columns.map((name) => String((row as Record<string, unknown>)[name] ?? "")).join(",");
  return [columns.join(","), ...rows.map(line)].map((text) => `${text}\n`).join("");
}
