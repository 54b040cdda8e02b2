import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { afterAll, describe, expect, it } from "vitest";
import { diskPhotoStore } from "@/lib/photos/disk-store";

const folder = mkdtempSync(join(tmpdir(), "grainlot-photos-"));
const store = diskPhotoStore(folder);
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
  const result = await store.keep(picture);
  if (!result.ok) throw new Error(result.reason);
  return { ...result.value, data: (await store.read(result.value.sha256))! };
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

  it("brings the longest side to 2048 pixels, and enlarges nothing", async () => {
    expect(await kept(await camera(4000, 1000))).toMatchObject({ widthPx: 2048, heightPx: 512 });
    expect(await kept(await camera(100, 50))).toMatchObject({ widthPx: 100, heightPx: 50 });
  });

  it("keeps equal pictures once, reads them by hash and forgets them", async () => {
    const first = await kept(await camera(300, 200));
    const second = await kept(await camera(300, 200));
    expect(second.sha256).toBe(first.sha256);
    expect(readdirSync(join(folder, first.sha256.slice(0, 2)))).toEqual([`${first.sha256}.jpg`]);
    await store.remove(first.sha256);
    await store.remove(first.sha256);
    expect(await store.read(first.sha256)).toBeNull();
  });

  it("refuses what is no picture, is cut off, or unpacks to too much", async () => {
    expect(await store.keep(Buffer.from("no picture at all"))).toEqual({
      ok: false,
      reason: "NOT_A_PICTURE",
    });
    const half = (await camera(640, 480)).subarray(0, 900);
    expect(await store.keep(half)).toEqual({ ok: false, reason: "NOT_A_PICTURE" });
    const blank = await sharp({
      create: { width: 12_000, height: 11_000, channels: 3, background: "white" },
      limitInputPixels: false,
    })
      .png({ compressionLevel: 1 })
      .toBuffer();
    expect(await store.keep(blank)).toEqual({ ok: false, reason: "PICTURE_TOO_LARGE" });
  });

  it("takes no hash that could lead out of its folder", async () => {
    await expect(store.read("../../etc/passwd")).rejects.toThrow(/64 lower-case hex digits/);
  });
});
