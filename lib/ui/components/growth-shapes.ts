/** A patch of growth: its middle, its radius, and how its edge is turned. */
export type Patch = readonly [x: number, y: number, radius: number, turn: number];

const EDGE_POINTS = 15;
/** How far the edge swings in and out, as a share of the radius; it changes the area by 1 % at most. */
const SWING = 0.14;

/** The outline of patches whose edge is uneven as growth is, as an SVG path. The same patches give the same path. */
export function patchesPath(patches: readonly Patch[]): string {
  return patches.map(patchPath).join("");
}

function patchPath([x, y, radius, turn]: Patch): string {
  const points = Array.from({ length: EDGE_POINTS }, (_, i) => {
    const angle = (2 * Math.PI * i) / EDGE_POINTS;
    const r = radius * (1 + SWING * Math.sin(5 * angle + turn) * Math.cos(2 * angle + 3 * turn));
    return [x + r * Math.cos(angle), y + r * Math.sin(angle)] as const;
  });
  const middles = points.map(([px, py], i) => {
    const [qx, qy] = points[(i + 1) % EDGE_POINTS]!;
    return `${((px + qx) / 2).toFixed(1)} ${((py + qy) / 2).toFixed(1)}`;
  });
  // Through the middles of the sides, bent by the corners: a smooth closed line.
  const curves = points.map(([px, py], i) => `Q${px.toFixed(1)} ${py.toFixed(1)} ${middles[i]}`);
  return `M${middles.at(-1)}${curves.join("")}Z`;
}

/** Growth over a box of 92 × 48, drawn to scale for classes 1 to 3: about 5, 20 and 45 % of the grain. */
export const COVER_PATCHES = {
  1: [
    [24, 17, 5.4, 0.4],
    [70, 35, 5, 1.7],
    [56, 14, 3.8, 2.9],
  ],
  2: [
    [20, 18, 9, 0.6],
    [45, 34, 8.2, 1.9],
    [75, 16, 9.2, 3.1],
    [79, 40, 5.6, 0.2],
  ],
  3: [
    [18, 18, 12.6, 0.3],
    [44, 31, 13.2, 1.4],
    [73, 17, 12.6, 2.5],
    [78, 40, 8.6, 0.9],
    [17, 40, 7.2, 2.1],
    [48, 10, 6.2, 3],
  ],
} as const satisfies Record<number, readonly Patch[]>;

/** What stays bare in class 4: about 12 % of the grain. */
export const BARE_PATCHES: readonly Patch[] = [
  [26, 36, 7.6, 0.8],
  [60, 14, 7.2, 2.2],
  [80, 34, 7.6, 1.1],
];
