import { createHash, randomBytes } from "node:crypto";
import { mkdir, readFile, rename, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import sharp from "sharp";
import { env } from "@/lib/env";
import { isUuid } from "@/shared/schemas/id";
import { pictureKind } from "./kind";
import type { PhotoStore, StoredPhoto } from "./store";

const LONGEST_SIDE_PX = 1600;
const JPEG_QUALITY = 82;
/**
 * More than any camera of today makes; a small file that unpacks to more is refused before it is unpacked. The other
 * forms may have to be unpacked whole, 8 bytes a pixel, and no phone makes large ones.
 */
const MOST_PIXELS = { jpeg: 120_000_000, png: 24_000_000, webp: 24_000_000 } as const;

/** The server's own pictures, below its data folder. */
export function photoStore(): PhotoStore {
  return diskPhotoStore(join(env().GRAINLOT_DATA_DIR, "photos"));
}

/** Pictures as files below a folder: `<account>/<sha256>.jpg`. */
export function diskPhotoStore(folder: string): PhotoStore {
  const folderOf = (accountId: string): string => {
    if (!isUuid(accountId)) throw new RangeError("Pictures belong to an account, named by a UUID.");
    return join(folder, accountId);
  };
  const pathOf = (accountId: string, sha256: string): string => {
    if (!/^[0-9a-f]{64}$/.test(sha256))
      throw new RangeError("A picture is named by 64 lower-case hex digits.");
    return join(folderOf(accountId), `${sha256}.jpg`);
  };

  async function keep(accountId: string, picture: Uint8Array): ReturnType<PhotoStore["keep"]> {
    const kind = pictureKind(picture);
    if (kind === null) return { ok: false, reason: "NOT_A_PICTURE" };
    if (kind === "heic") return { ok: false, reason: "PICTURE_IS_HEIC" };
    const encoded = await inTurn(() => encode(picture, MOST_PIXELS[kind]));
    if (!encoded.ok) return encoded;
    const { data, widthPx, heightPx } = encoded.value;
    const sha256 = createHash("sha256").update(data).digest("hex");
    const path = pathOf(accountId, sha256);
    await mkdir(folderOf(accountId), { recursive: true });
    // Written aside and moved, so that nobody ever reads half a picture.
    const aside = `${path}.${randomBytes(6).toString("hex")}`;
    await writeFile(aside, data, { mode: 0o600 });
    await rename(aside, path);
    const value: StoredPhoto = { sha256, bytes: data.byteLength, widthPx, heightPx };
    return { ok: true, value };
  }

  async function read(accountId: string, sha256: string): ReturnType<PhotoStore["read"]> {
    try {
      return await readFile(pathOf(accountId, sha256));
    } catch (fault) {
      if ((fault as NodeJS.ErrnoException).code === "ENOENT") return null;
      throw fault;
    }
  }

  return {
    keep,
    read,
    remove: (accountId, sha256) => rm(pathOf(accountId, sha256), { force: true }),
    removeAll: (accountId) => rm(folderOf(accountId), { recursive: true, force: true }),
  };
}

let lastTurn: Promise<unknown> = Promise.resolve();

/** One after the other: the largest takes some 400 MB while it is worked on. */
function inTurn<Value>(work: () => Promise<Value>): Promise<Value> {
  const turn = lastTurn.then(work);
  lastTurn = turn.catch(() => undefined);
  return turn;
}

/** Upright, at most 1600 px on the longest side, JPEG; sharp writes no metadata unless asked to. */
async function encode(picture: Uint8Array, limitInputPixels: number) {
  try {
    const { data, info } = await sharp(picture, { limitInputPixels, failOn: "error" })
      .autoOrient()
      .resize({ width: LONGEST_SIDE_PX, height: LONGEST_SIDE_PX, fit: "inside", withoutEnlargement: true })
      .flatten({ background: "white" })
      .jpeg({ quality: JPEG_QUALITY })
      .toBuffer({ resolveWithObject: true });
    return { ok: true, value: { data, widthPx: info.width, heightPx: info.height } } as const;
  } catch (fault) {
    const tooLarge = /pixel limit/i.test(fault instanceof Error ? fault.message : "");
    return { ok: false, reason: tooLarge ? "PICTURE_TOO_LARGE" : "NOT_A_PICTURE" } as const;
  }
}
