import { closeSync, fsyncSync, openSync, renameSync, rmSync, writeSync } from "node:fs";

/** The place of a ledger file while this process, and no other, may change it. */
export interface LedgerPlace {
  /** Puts the text in the ledger's place, whole or not at all; `secret` is kept in a new file of its own first. */
  keep(text: string, secret: { readonly path: string; readonly hex: string } | null): void;
  /** Gives the place up; what was not kept leaves no trace. */
  release(): void;
}

export type TakenPlace =
  | { readonly ok: true; readonly place: LedgerPlace }
  | { readonly ok: false; readonly message: string };

/** Thrown by `keep` when a new file can't be made; the message says which and why. Nothing was changed. */
export class NotKept extends Error {}

/** Takes the ledger's place by making `<path>.new`, which later becomes the ledger. */
export function takeLedgerPlace(path: string): TakenPlace {
  const newPath = `${path}.new`;
  let file: number;
  try {
    file = openSync(newPath, "wx");
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === "EEXIST") {
      const message = `${newPath} is in the way: another run is drawing, or one was cut off. Wait for it, or remove the file.`;
      return { ok: false, message };
    }
    return { ok: false, message: `The ledger can't be written: ${reasonOf(error)}` };
  }
  let held = true;
  const release = () => {
    if (!held) return;
    held = false;
    closeSync(file);
    rmSync(newPath, { force: true });
  };
  const keep: LedgerPlace["keep"] = (text, secret) => {
    writeAll(file, text, newPath);
    if (secret) writeSecret(secret.path, secret.hex);
    try {
      renameSync(newPath, path);
    } catch (error) {
      if (secret) rmSync(secret.path, { force: true });
      throw new NotKept(`The ledger can't be put in its place: ${reasonOf(error)}`);
    }
    held = false;
    closeSync(file);
  };
  return { ok: true, place: { keep, release } };
}

/** Never over a file that is there: a secret lost can't be made again. */
function writeSecret(path: string, hex: string): void {
  let file: number;
  try {
    file = openSync(path, "wx", 0o600);
  } catch (error) {
    const exists = (error as NodeJS.ErrnoException).code === "EEXIST";
    throw new NotKept(
      exists
        ? `${path} exists. Name a new file for the new secret.`
        : `The secret can't be written: ${reasonOf(error)}`,
    );
  }
  try {
    writeAll(file, `${hex}\n`, path);
  } catch (error) {
    rmSync(path, { force: true });
    throw error;
  } finally {
    closeSync(file);
  }
}

function writeAll(file: number, text: string, path: string): void {
  const bytes = Buffer.from(text, "utf8");
  try {
    for (let at = 0; at < bytes.length; ) at += writeSync(file, bytes, at);
    fsyncSync(file);
  } catch (error) {
    throw new NotKept(`${path} can't be written: ${reasonOf(error)}`);
  }
}

function reasonOf(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  return (
    { ENOENT: "there is no such folder.", EACCES: "it may not be written to.", ENOSPC: "the disk is full." }[
      code ?? ""
    ] ?? `${message}.`
  );
}
