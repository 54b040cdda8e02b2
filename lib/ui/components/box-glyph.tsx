export type BoxState = "unrecorded" | 0 | 1 | 2 | 3 | 4;

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
      {state === "unrecorded" || state === 0 ? null : <use href={`#glyph-cover-${state}`} />}
    </svg>
  );
}
