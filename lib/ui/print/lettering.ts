import { join } from "node:path";
import { type Font, openSync } from "fontkit";

/** The project's own typeface, as files that go into a PDF: Latin letters, and further ones of Latin scripts. */
const FILES = {
  regular: ["latin-400-normal", "latin-ext-400-normal"],
  bold: ["latin-700-normal", "latin-ext-700-normal"],
} as const;
export type Weight = keyof typeof FILES;

const FOLDER = join(process.cwd(), "node_modules", "@fontsource", "atkinson-hyperlegible-next", "files");

interface Face {
  readonly path: string;
  readonly font: Font;
}

const faces: Partial<Record<Weight, readonly Face[]>> = {};

function facesOf(weight: Weight): readonly Face[] {
  faces[weight] ??= FILES[weight].map((name) => {
    const path = join(FOLDER, `atkinson-hyperlegible-next-${name}.woff`);
    return { path, font: openSync(path) as Font };
  });
  return faces[weight];
}

/** A stretch of text that one font file has all signs of. */
export interface Run {
  readonly path: string;
  readonly text: string;
  /** In points. */
  readonly width: number;
}

export interface Line {
  readonly runs: readonly Run[];
  /** In points. */
  readonly width: number;
}

/**
 * Text broken into lines of at most `width` points. Signs the typeface lacks (emoji, other scripts) are left out, and
 * a word wider than a line is broken.
 */
export function linesOf(text: string, weight: Weight, size: number, width: number): Line[] {
  const lines: string[] = [];
  let line = "";
  for (const word of written(text, weight).split(/\s+/).filter(Boolean)) {
    const longer = line ? `${line} ${word}` : word;
    if (widthOf(longer, weight, size) <= width) {
      line = longer;
      continue;
    }
    if (line) lines.push(line);
    line = "";
    for (const sign of word) {
      if (line && widthOf(line + sign, weight, size) > width) {
        lines.push(line);
        line = "";
      }
      line += sign;
    }
  }
  if (line) lines.push(line);
  return lines.map((each) => {
    const runs = runsOf(each, weight, size);
    return { runs, width: runs.reduce((sum, run) => sum + run.width, 0) };
  });
}

/** The text without signs that no file has. */
function written(text: string, weight: Weight): string {
  return [...text.normalize("NFC")].filter((sign) => /\s/.test(sign) || faceOf(sign, weight)).join("");
}

function faceOf(sign: string, weight: Weight): Face | undefined {
  return facesOf(weight).find(({ font }) => font.hasGlyphForCodePoint(sign.codePointAt(0)!));
}

function widthOf(text: string, weight: Weight, size: number): number {
  return runsOf(text, weight, size).reduce((sum, { width }) => sum + width, 0);
}

function runsOf(text: string, weight: Weight, size: number): Run[] {
  const pieces: { face: Face; text: string }[] = [];
  for (const sign of text) {
    const face = faceOf(sign, weight)!;
    const last = pieces.at(-1);
    if (last?.face === face) last.text += sign;
    else pieces.push({ face, text: sign });
  }
  return pieces.map(({ face: { path, font }, text: piece }) => ({
    path,
    text: piece,
    width: (font.layout(piece).advanceWidth * size) / font.unitsPerEm,
  }));
}
