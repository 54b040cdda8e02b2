import type { ReactElement } from "react";
import { renderToStaticMarkup } from "react-dom/server";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { takeFromCover } from "@/lib/engine/grading/take";
import { BoxGlyph, type BoxState } from "@/lib/ui/components/box-glyph";
import { BoxGlyphPatterns } from "@/lib/ui/components/box-glyph-patterns";
import { GrowthPictureShapes } from "@/lib/ui/components/growth-picture-shapes";
import { GrowthPicture } from "@/lib/ui/components/growth-pictures";
import { GROWTH_DEPTHS, OFF_COLOURS, TAKE_CLASSES, WETNESS } from "@/shared/vocabulary/growth";

const inside = (element: ReactElement) =>
  renderToStaticMarkup(element)
    .replace(/^<svg[^>]*>|<\/svg>$/g, "")
    .replaceAll("var(--box-line)", "#13252b");

/** A picture as a screen shows it, four pixels to a unit. */
async function pixels(element: ReactElement, width: number, height: number) {
  const size = `width="${4 * width}" height="${4 * height}"`;
  const shapes = inside(<BoxGlyphPatterns />) + inside(<GrowthPictureShapes />);
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" ${size}>${shapes}${inside(element)}</svg>`;
  return sharp(Buffer.from(svg)).flatten({ background: "#7f00ff" }).removeAlpha().raw().toBuffer();
}

/** Share of the grain surface drawn white, in per cent: what a reader of the picture would call its cover. */
async function drawnCover(state: BoxState): Promise<number> {
  const [width, height] = [96, 52];
  const raw = await pixels(<BoxGlyph state={state} />, width, height);
  let [white, all] = [0, 0];
  for (let y = 4 * 4; y < 4 * (height - 4); y++) {
    for (let x = 4 * 4; x < 4 * (width - 4); x++) {
      const blue = raw[3 * (y * 4 * width + x) + 2]!; // grain has little blue, growth much
      white += blue > 150 ? 1 : 0;
      all++;
    }
  }
  return (100 * white) / all;
}

describe("the pictures of growth", () => {
  it.each(TAKE_CLASSES)("draw class %i with a cover of that class (boundaries of ASTM G21)", async (take) => {
    const cover = await drawnCover(take);
    // Within its class by two points, so that a glance can't take it for its neighbour.
    expect(takeFromCover(cover)).toBe(take);
    if (take > 0) expect(takeFromCover(Math.max(cover - 2, 0.1))).toBe(take);
    if (take > 0) expect(takeFromCover(Math.min(cover + 2, 100))).toBe(take);
  });

  it("differ from each other within a question also without colour", async () => {
    const questions = [OFF_COLOURS, GROWTH_DEPTHS, WETNESS].map((answers) =>
      answers.map((answer) => <GrowthPicture key={answer} of={answer} />),
    );
    for (const pictures of questions) {
      const grey: Uint8Array[] = [];
      for (const picture of pictures) {
        const raw = await pixels(picture, 96, 60);
        grey.push(
          await sharp(raw, { raw: { width: 384, height: 240, channels: 3 } })
            .grayscale()
            .raw()
            .toBuffer(),
        );
      }
      for (const [i, one] of grey.entries()) {
        for (const other of grey.slice(i + 1)) {
          const differing = one.filter((value, at) => Math.abs(value - other[at]!) > 25).length;
          expect(differing / one.length).toBeGreaterThan(0.01);
        }
      }
    }
  });
});
