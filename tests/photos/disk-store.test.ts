import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, describe, expect, it } from "vitest";
import { diskPhotoStore } from "@/lib/photos/disk-store";

const folder = mkdtempSync(join(tmpdir(), "grainlot-photos-"));
const store = diskPhotoStore(folder);
const account = "01890a5d-ac96-774b-bcce-b302099a8057";
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A picture with the position and the camera's name in its EXIF block; left half red, right half blue. */
async function camera(width: number, height: number, orientation = 1): Promise<Buffer> {
  const half = { create: { width: width >> 1, height, channels: 3 as const, background: "red" } };
  return sharp({ create: { width, height, channels: 3, background: "blue" } })
    .composite([{ input: await sharp(half).png().toBuffer(), left: 0, top: 0 }])
    .withExif({
      IFD0: { Make: "Invented Camera", Orientation: String(orientation) },
      IFD3: {
        GPSLatitudeRef: "N",
        GPSLatitude: "43/1 30/1 0/1",
        GPSLongitudeRef: "W",
        GPSLongitude: "5/1 42/1 0/1",
      },
    })
    .withMetadata({ orientation })
    .jpeg()
    .toBuffer();
}

async function kept(picture: Buffer) {
  const result = await store.keep(account, picture);
  if (!result.ok) throw new Error(result.reason);
  return { ...result.value, data: (await store.read(account, result.value.sha256))! };
}

describe("the photo store", () => {
  it("keeps nothing of where and by what a picture was taken", async () => {
    const picture = await camera(640, 480);
    // The picture as given does carry it, so that the check below can fail.
    expect(picture.includes("Invented Camera")).toBe(true);
    const { exif } = await sharp(picture).metadata();
    // Tag 0x8825 points to the GPS block (EXIF 2.32, 4.6.3), in either byte order.
    expect([0x8825, 0x2588].some((tag) => exif!.includes(Buffer.from([tag >> 8, tag & 255])))).toBe(true);
    const { data } = await kept(picture);
    const metadata = await sharp(data).metadata();
    expect(metadata).toMatchObject({ format: "jpeg" });
    expect(metadata.exif ?? metadata.xmp ?? metadata.iptc).toBeUndefined();
    expect(Buffer.from(data).includes("Invented Camera")).toBe(false);
    expect(Buffer.from(data).includes("Exif")).toBe(false);
  });

  it("turns it upright as the camera held it (EXIF orientation 6: a quarter turn clockwise)", async () => {
    const { data, widthPx, heightPx } = await kept(await camera(640, 480, 6));
    expect([widthPx, heightPx]).toEqual([480, 640]);
    const { data: top } = await sharp(data)
      .extract({ left: 240, top: 20, width: 1, height: 1 })
      .raw()
      .toBuffer({ resolveWithObject: true });
    expect(top[0]!).toBeGreaterThan(200); // what was left is on top: red
  });

  it("brings the longest side to 1600 pixels, and enlarges nothing", async () => {
    expect(await kept(await camera(4000, 1000))).toMatchObject({ widthPx: 1600, heightPx: 400 });
    expect(await kept(await camera(100, 50))).toMatchObject({ widthPx: 100, heightPx: 50 });
  });

  it("keeps equal pictures once, reads them by hash and forgets them", async () => {
    const first = await kept(await camera(300, 200));
    const second = await kept(await camera(300, 200));
    expect(second.sha256).toBe(first.sha256);
    expect(readdirSync(join(folder, account)).filter((name) => name.startsWith(first.sha256))).toEqual([
      `${first.sha256}.jpg`,
    ]);
    await store.remove(account, first.sha256);
    await store.remove(account, first.sha256);
    expect(await store.read(account, first.sha256)).toBeNull();
  });

  it("refuses what is no picture, is cut off, or unpacks to too much", async () => {
    expect(await store.keep(account, Buffer.from("no picture at all"))).toEqual({
      ok: false,
      reason: "NOT_A_PICTURE",
    });
    const half = (await camera(640, 480)).subarray(0, 900);
    expect(await store.keep(account, half)).toEqual({ ok: false, reason: "NOT_A_PICTURE" });
    const blank = (width: number, height: number) =>
      sharp({ create: { width, height, channels: 3, background: "white" }, limitInputPixels: false });
    for (const large of [
      await blank(12_000, 11_000).jpeg().toBuffer(),
      await blank(5_000, 5_000).png({ compressionLevel: 1 }).toBuffer(),
    ]) {
      expect(await store.keep(account, large)).toEqual({ ok: false, reason: "PICTURE_TOO_LARGE" });
    }
  });

  it("says of a HEIC picture that it is one, and takes nothing else that an image library would open", async () => {
    // The start of a HEIC file: a box of 24 bytes, `ftyp`, major brand `heic` (ISO/IEC 23008-12).
    const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from("ftypheic"), Buffer.alloc(400)]);
    expect(await store.keep(account, heic)).toEqual({ ok: false, reason: "PICTURE_IS_HEIC" });
    const drawing = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"/>');
    expect((await sharp(drawing).metadata()).format).toBe("svg");
    const blank = sharp({ create: { width: 20, height: 20, channels: 3, background: "white" } });
    for (const other of [
      drawing,
      await blank.clone().gif().toBuffer(),
      await blank.clone().tiff().toBuffer(),
    ]) {
      expect(await store.keep(account, other)).toEqual({ ok: false, reason: "NOT_A_PICTURE" });
    }
    for (const picture of [await blank.clone().png().toBuffer(), await blank.clone().webp().toBuffer()]) {
      expect(await store.keep(account, picture)).toMatchObject({ ok: true, value: { widthPx: 20 } });
    }
  });

  it("keeps accounts apart, and lets one go with all it has", async () => {
    const other = "01890a5d-ac96-774b-bcce-b302099a8058";
    const picture = await camera(310, 200);
    const { sha256 } = await kept(picture);
    await store.keep(other, picture);
    await store.removeAll(account);
    await store.removeAll(account);
    expect(await store.read(account, sha256)).toBeNull();
    expect(await store.read(other, sha256)).not.toBeNull();
  });

  it("takes no hash and no account that could lead out of its folder", async () => {
    expect(() => store.removeAll("..")).toThrow(/named by a UUID/);
    await expect(store.read(account, "../../etc/passwd")).rejects.toThrow(/64 lower-case hex digits/);
  });
});
