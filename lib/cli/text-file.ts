import { isUtf8 } from "node:buffer";
import { readFileSync, statSync } from "node:fs";

export type ReadText =
  | { readonly ok: true; readonly text: string }
  /** What is wrong and what to do, a whole sentence or two. */
  | { readonly ok: false; readonly message: string };

/** A file's text without a byte order mark. Refused: no such file, a folder, no right to it, too large, not UTF-8. */
export function readTextFile(path: string, bytesAtMost: number): ReadText {
  let bytes: Buffer;
  try {
    if (statSync(path).size > bytesAtMost) return tooLarge(bytesAtMost);
    bytes = readFileSync(path);
  } catch (error) {
    const message = fileMessages[(error as NodeJS.ErrnoException).code ?? ""];
    if (!message) throw error;
    return { ok: false, message };
  }
  // A pipe tells its size only once it is read.
  if (bytes.length > bytesAtMost) return tooLarge(bytesAtMost);
  if (!isUtf8(bytes)) return { ok: false, message: "The file is not UTF-8 text. Is it the right one?" };
  return { ok: true, text: bytes.toString("utf8").replace(/^\uFEFF/, "") };
}

function tooLarge(bytesAtMost: number): ReadText {
  const megabytes = bytesAtMost / (1024 * 1024);
  const size = megabytes >= 1 ? `${megabytes} MB` : `${bytesAtMost / 1024} kB`;
  return {
    ok: false,
    message: `The file is larger than ${size}, the most that is read. Is it the right one?`,
  };
}

const fileMessages: Readonly<Record<string, string>> = {
  ENOENT: "There is no such file. Check the name and the folder you stand in.",
  ENOTDIR: "There is no such file. Check the name and the folder you stand in.",
  ENAMETOOLONG: "There is no such file. Check the name and the folder you stand in.",
  EISDIR: "This is a folder. Name a file.",
  EACCES: "The file may not be read. Check its permissions.",
  EPERM: "The file may not be read. Check its permissions.",
};
