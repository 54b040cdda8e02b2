export type BoxState = "unrecorded" | 0 | 1 | 2 | 3 | 4;

/** How far white growth has spread over the grain, drawn for each class from 1 to 3. */
const GROWTH_PATHS = {
  1: "M14 12q7-6 13 0t-4 11q-10 3-9-11M66 32q6-5 12 1t-5 8-7-9",
  2: "M8 9q15-8 27 2t-2 22-24-2-1-22M58 22q12-9 26 0t-2 20-26-2-2-16",
  3: "M6 9q20-6 36 1q14 5 22-3q12-4 21 5q4 8-4 14q-9 5-6 12q-1 8-14 8q-10 0-13-8q-3-8-12-5q-12 6-20 13q-9 3-11-6q-3-17 1-31",
} as const;

/** The patterns the box pictures share; stands once in the layout. */
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

/** A box seen from above. Without a label it is decoration beside words that say the same. */
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
        <path d={GROWTH_PATHS[state]} fill="url(#glyph-growth)" stroke="#7d8a86" />
      ) : null}
    </svg>
  );
}
