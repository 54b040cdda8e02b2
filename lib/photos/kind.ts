export type PictureKind = "jpeg" | "png" | "webp" | "heic";

/** Major brands of still pictures in the ISO base media file format (ISO/IEC 23008-12 and AV1 Image File Format). */
const HEIC_BRANDS = ["heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1", "avif", "avis"];

/** What a file is by its first bytes, whatever it is called; null where it is none of these. */
export function pictureKind(file: Uint8Array): PictureKind | null {
  const text = (from: number, to: number) => String.fromCharCode(...file.subarray(from, to));
  if (text(0, 3) === "\xff\xd8\xff") return "jpeg"; // ITU-T T.81, B.1.1.3: SOI, then a marker
  if (text(0, 8) === "\x89PNG\r\n\x1a\n") return "png"; // ISO/IEC 15948, 5.2
  if (text(0, 4) === "RIFF" && text(8, 12) === "WEBP") return "webp"; // RFC 9649, 2.4
  if (text(4, 8) === "ftyp" && HEIC_BRANDS.includes(text(8, 12))) return "heic";
  return null;
}
