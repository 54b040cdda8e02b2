import { BARE_PATCHES, COVER_PATCHES, patchesPath } from "./growth-shapes";

const EDGE = { stroke: "#7d8a86", strokeWidth: 1, strokeDasharray: "1.6 1" } as const;

/** What the pictures of boxes and grain share; stands once in the layout, so that no script carries it. */
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
        {([1, 2, 3] as const).map((state) => (
          <path
            key={state}
            id={`glyph-cover-${state}`}
            d={patchesPath(COVER_PATCHES[state])}
            fill="url(#glyph-growth)"
            {...EDGE}
          />
        ))}
        <path id="glyph-cover-4" d={patchesPath(BARE_PATCHES)} fill="url(#glyph-grain)" {...EDGE} />
      </defs>
    </svg>
  );
}
