import sharp from "sharp";
import type { RandomSource } from "@/lib/engine/random/source";
import type { TakeClass } from "@/shared/vocabulary/growth";
import { between } from "./chance";

const WIDTH = 800;
const HEIGHT = 600;
/** Inner side of the drawn box, from edge to edge. */
const BOX = { left: 90, top: 70, right: 710, bottom: 530 } as const;

/** Share of the grain under white growth that a drawing of each class aims at, from 0 to 1: amid its class. */
const COVER = [0, 0.05, 0.2, 0.45, 0.8] as const;
const COLUMNS = 24;
const ROWS = 18;

/** An invented opened box seen from above, as PNG: grain under as much white growth as its class says. */
export function drawOpenedBox(source: RandomSource, growth: TakeClass, grain: string): Promise<Buffer> {
  const cells = Array.from({ length: COLUMNS * ROWS }, (_, at) => ({
    x: BOX.left + ((at % COLUMNS) + 0.5) * ((BOX.right - BOX.left) / COLUMNS),
    y: BOX.top + (Math.floor(at / COLUMNS) + 0.5) * ((BOX.bottom - BOX.top) / ROWS),
  }));
  const kernels = cells.map(({ x, y }) => {
    const turn = between(source, 0, 179);
    return `<ellipse cx="${x}" cy="${y}" rx="12" ry="7" fill="${grain}" stroke="#6d5a35" transform="rotate(${turn} ${x} ${y})"/>`;
  });
  // Growth spreads from one spot: the cells nearest to it, by a distance that is a little uneven.
  const spot = cells[source.below(cells.length)]!;
  const reached = cells
    .map((cell) => ({ ...cell, far: Math.hypot(cell.x - spot.x, cell.y - spot.y) + between(source, 0, 80) }))
    .sort((a, b) => a.far - b.far)
    .slice(0, Math.round(COVER[growth] * cells.length));
  const threads = reached.map(
    ({ x, y }) => `<circle cx="${x}" cy="${y}" r="19" fill="#f7f6f0" fill-opacity="0.9"/>`,
  );
  const frame = `<rect x="60" y="40" width="680" height="520" rx="8" fill="#9b7648"/><rect x="90" y="70" width="620" height="460" fill="#4b3a22"/>`;
  return picture("#56643f", [frame, ...kernels, ...threads]);
}

/** Invented boxes as they stand in a wood, as PNG. */
export function drawSetOut(source: RandomSource, boxes: number): Promise<Buffer> {
  const trunks = Array.from({ length: 5 }, (_, at) => {
    const x = 60 + at * 160 + between(source, -30, 30);
    return `<rect x="${x}" y="0" width="${between(source, 30, 60)}" height="${between(source, 300, 380)}" fill="#5b4632"/>`;
  });
  const wide = 640 / boxes;
  const stand = Array.from(
    { length: boxes },
    (_, at) =>
      `<rect x="${90 + at * wide}" y="400" width="${wide - 40}" height="110" rx="6" fill="#9b7648" stroke="#3d2f1b" stroke-width="4"/>` +
      `<rect x="${82 + at * wide}" y="386" width="${wide - 24}" height="24" fill="#d9cdb4"/>`,
  );
  const ground = `<rect y="340" width="${WIDTH}" height="260" fill="#6b5a3a"/>`;
  return picture("#7d8f6a", [ground, ...trunks, ...stand]);
}

function picture(background: string, parts: readonly string[]): Promise<Buffer> {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}"><rect width="100%" height="100%" fill="${background}"/>${parts.join("")}${INVENTED}</svg>`;
  return sharp(Buffer.from(svg)).png({ compressionLevel: 1 }).toBuffer();
}

/** Strokes of the letters on a grid of 2 × 4: a machine without fonts writes no text. */
const STROKES: Readonly<Record<string, string>> = {
  I: "M1 0V4",
  N: "M0 4V0L2 4V0",
  V: "M0 0L1 4L2 0",
  E: "M2 0H0V4H2M0 2H1.6",
  T: "M0 0H2M1 0V4",
  D: "M0 0V4H1L2 3V1L1 0Z",
};

/** The word on every picture of the demo. */
const INVENTED = `<g transform="translate(20 566) scale(6)" fill="none" stroke="#fff" stroke-width="0.5">${[
  ..."INVENTED",
]
  .map((letter, at) => `<path transform="translate(${at * 3} 0)" d="${STROKES[letter]}"/>`)
  .join("")}</g>`;
