import { isSecretHex } from "@/lib/engine/random/source";
import { readTextFile } from "./text-file";

export type ReadSecret =
  | { readonly ok: true; readonly secretHex: string }
  | { readonly ok: false; readonly message: string };

const BYTES_AT_MOST = 1024;

/** A secret from its file: 64 hex digits and at most a line end. The message never repeats what the file holds. */
export function readSecret(path: string): ReadSecret {
  const file = readTextFile(path, BYTES_AT_MOST);
  if (!file.ok) return file;
  const secretHex = file.text.trim().toLowerCase();
  if (isSecretHex(secretHex)) return { ok: true, secretHex };
  return { ok: false, message: "This is no secret: a secret's file holds 64 hex digits and nothing else." };
}
