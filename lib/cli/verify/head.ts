import { type PublishedHead, publishedHeadSchema } from "@/shared/schemas/draw";
import { readTextFile } from "../text-file";

export type ReadHead =
  | { readonly ok: true; readonly head: PublishedHead }
  | { readonly ok: false; readonly message: string };

const LINE = /^([0-9a-f]{64}),(\d{1,9}),([0-9a-f]{64})$/;
const BYTES_AT_MOST = 64 * 1024;

/** The published head: `SEAL,DRAWS,LAST_HASH` as the trial's page shows it, or a file that holds this line or its JSON. */
export function readHead(given: string, resolvePath: (path: string) => string): ReadHead {
  const line = headOfLine(given);
  if (line) return { ok: true, head: line };
  const file = readTextFile(resolvePath(given), BYTES_AT_MOST);
  const form = 'Give "SEAL,DRAWS,LAST_HASH" as the trial\'s page shows it, or a file that holds it.';
  if (!file.ok)
    return { ok: false, message: `--head is no such line, and no file either: ${file.message} ${form}` };
  const head = headOfLine(file.text) ?? headOfJson(file.text);
  return head
    ? { ok: true, head }
    : { ok: false, message: `The file named by --head holds no head. ${form}` };
}

function headOfLine(text: string): PublishedHead | null {
  const [, seal, draws, lastHash] =
    LINE.exec(
      text
        .trim()
        .toLowerCase()
        .replace(/\s*,\s*/g, ","),
    ) ?? [];
  return seal && draws && lastHash ? { seal, draws: Number(draws), lastHash } : null;
}

function headOfJson(text: string): PublishedHead | null {
  try {
    return publishedHeadSchema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}
