import { BARE_PATCHES, COVER_PATCHES, patchesPath } from "./growth-shapes";

export type BoxState = "unrecorded" | 0 | 1 | 2 | 3 | 4;

const GROWTH_PATHS = {
  1: patchesPath(COVER_PATCHES[1]),
  2: patchesPath(COVER_PATCHES[2]),
  3: patchesPath(COVER_PATCHES[3]),
} as const;
const BARE_PATH = patchesPath(BARE_PATCHES);

/** The patterns the pictures of boxes and grain share; stands once in the layout. */
export function BoxGlyphPatterns() {
  return (
    <svg width="0" height="0" className="absolute" aria-hidden="true" focusable="false">
      <defs>
        <pattern id="glyph-grain" width="9" height="7" patternUnits="userSpaceOnUse">
          <rect width="9" height="7" fill="#8d6536" />
          <ellipse cx="3" cy="2.2" rx="2.5" ry="1.3" fill="#c39a5e" />
          <ellipse cx="7.2" cy="5.4" rx="2.5" ry="1.3" fill="#b58a4e" />
        </pattern>
        <pattern id="glyph-growth" width="7" height="7" patternUnits="userSpaceOnUse">
          <rect width="7" height="7" fill="#f4f7f5" />
          <path d="M0 2q2 2 3.5 0T7 2M0 5.6q2-2 3.5 0T7 5.6" stroke="#b4bfba" strokeWidth=".8" fill="none" />
        </pattern>
      </defs>
    </svg>
  );
}

const EDGE = { stroke: "#7d8a86", strokeWidth: 1, strokeDasharray: "1.6 1" } as const;

/** A box seen from above, its growth to scale. Without a label it is decoration beside words that say the same. */
export function BoxGlyph({ state, label }: { state: BoxState; label?: string }) {
  return (
    <svg
      viewBox="0 0 96 52"
      className="block w-full max-w-40"
      focusable="false"
      role={label ? "img" : "presentation"}
      aria-label={label}
      aria-hidden={label ? undefined : true}
    >
      <rect
        x="2"
        y="2"
        width="92"
        height="48"
        rx="3"
        fill={state === "unrecorded" ? "none" : state === 4 ? "url(#glyph-growth)" : "url(#glyph-grain)"}
        stroke="var(--box-line)"
        strokeWidth="3"
        strokeDasharray={state === "unrecorded" ? "7 5" : undefined}
      />
      {state === 1 || state === 2 || state === 3 ? (
        <path d={GROWTH_PATHS[state]} fill="url(#glyph-growth)" {...EDGE} />
      ) : null}
      {state === 4 ? <path d={BARE_PATH} fill="url(#glyph-grain)" {...EDGE} /> : null}
    </svg>
  );
}
