import type { ReactNode } from "react";
import {
  GROWTH_DEPTHS,
  type GrowthDepth,
  OFF_COLOURS,
  type OffColour,
  WETNESS,
  type Wetness,
} from "@/shared/vocabulary/growth";
import { type Patch, patchesPath } from "./growth-shapes";

/** Where a box overgrown white has another colour. */
const COLOURED: readonly Patch[] = [
  [36, 27, 15, 0.7],
  [66, 37, 11, 2],
];
const FILLS: Readonly<Record<OffColour, string>> = {
  "blue-green": "#4f8f86",
  black: "#4a4a4a",
  "yellow-orange": "#e0a03a",
  "pink-red": "#d27a8c",
};

/** Dust, pinheads, rings and streaks: one pattern for each colour. */
const MARKS: Readonly<Record<OffColour, ReactNode>> = {
  "blue-green": (
    <path
      d="M28 20h.1M34 17h.1M40 21h.1M31 26h.1M37 25h.1M43 28h.1M28 32h.1M34 33h.1M40 35h.1M60 33h.1M66 31h.1M71 36h.1M62 39h.1M68 42h.1"
      stroke="#173d39"
      strokeWidth="2.6"
      strokeLinecap="round"
    />
  ),
  black: (
    <>
      <path
        d="M28 32v-8M33 35v-12M38 33v-11M43 34v-8M61 42v-7M66 44v-10M71 42v-7"
        stroke="#111"
        strokeWidth="1"
      />
      <path
        d="M28 23h.1M33 22h.1M38 21h.1M43 25h.1M61 34h.1M66 33h.1M71 34h.1"
        stroke="#111"
        strokeWidth="3.4"
        strokeLinecap="round"
      />
    </>
  ),
  "yellow-orange": (
    <g fill="none" stroke="#7a4c06" strokeWidth="1.2">
      <circle cx="36" cy="27" r="4" />
      <circle cx="36" cy="27" r="9" />
      <circle cx="66" cy="37" r="3" />
      <circle cx="66" cy="37" r="7" />
    </g>
  ),
  "pink-red": (
    <path
      d="M24 22q4-3 8 0t8 0 8 0M23 28q4-3 8 0t8 0 8 0M25 34q4-3 8 0t8 0 7 0M57 34q3-3 6 0t6 0 6 0M58 40q3-3 6 0t6 0 5 0"
      stroke="#6d1c30"
      strokeWidth="1.4"
      fill="none"
    />
  ),
};

/** A box cut open from the side: growth on top, down between the grains, and up the walls. */
const SURFACE = `M5 31V26${"q5.4-7 10.75 0".repeat(8)}V31Z`;
const THREADS =
  "M14 28q3 6-1 11t3 10M28 28q-4 6 1 11t-2 9M42 28q4 5 0 10t2 11M56 28q-4 6 0 11t-2 8M70 28q4 6-1 10t3 10M84 28q-3 6 0 11t-3 8";
const WALLS = "M4.5 28V8q8 1 3 7 7 2 2 6 6 3 1 7ZM91.5 28V8q-8 1-3 7-7 2-2 6-6 3-1 7Z";

const GROWN: Readonly<Record<GrowthDepth, ReactNode>> = {
  none: null,
  surface: <path d={SURFACE} fill="#f4f7f5" stroke="#7d8a86" />,
  "between-grains": (
    <>
      <path d={THREADS} fill="none" stroke="#f4f7f5" strokeWidth="2.6" strokeLinecap="round" />
      <path d={SURFACE} fill="#f4f7f5" stroke="#7d8a86" />
    </>
  ),
  through: (
    <>
      <rect x="4" y="28" width="88" height="28" fill="url(#glyph-growth)" />
      <path d={SURFACE} fill="#f4f7f5" stroke="#7d8a86" />
    </>
  ),
  "up-the-walls": (
    <>
      <path d={WALLS} fill="#f4f7f5" stroke="#7d8a86" />
      <path d={SURFACE} fill="#f4f7f5" stroke="#7d8a86" />
    </>
  ),
};

/** Grains close to: cracked, shining, with drops between them, or under water. */
const KERNELS = [
  [20, 22],
  [48, 20],
  [76, 23],
  [33, 41],
  [62, 42],
] as const;

const WET_MARKS: Readonly<Record<Wetness, ReactNode>> = {
  dry: (
    <path
      d="M13 22l5-2 4 3 5-2M41 20l5 2 4-3 5 2M69 23l5-2 4 3 5-2M26 41l5 2 4-3 5 2M55 42l5-2 4 3 5-2"
      fill="none"
      stroke="#4a3213"
      strokeWidth="1.2"
    />
  ),
  moist: (
    <path
      d="M14 18q4-3 8-2M42 16q4-3 8-2M70 19q4-3 8-2M27 37q4-3 8-2M56 38q4-3 8-2"
      fill="none"
      stroke="#fff"
      strokeWidth="1.8"
      strokeLinecap="round"
    />
  ),
  wet: (
    <path
      d="M34 24q5 7 0 9-5-2 0-9M62 24q5 7 0 9-5-2 0-9M47 44q5 7 0 9-5-2 0-9M78 40q5 7 0 9-5-2 0-9M17 38q5 7 0 9-5-2 0-9"
      fill="#cfe6f5"
      stroke="#1f5f86"
    />
  ),
  "standing-water": (
    <>
      <path d="M3 26q8-5 15 0t15 0 15 0 15 0 15 0 15 0V57H3Z" fill="#8cc3e6" fillOpacity=".62" />
      <path
        d="M3 26q8-5 15 0t15 0 15 0 15 0 15 0 15 0M14 50q5-3 10 0M44 53q5-3 10 0M74 50q5-3 10 0"
        fill="none"
        stroke="#1f5f86"
        strokeWidth="1.6"
      />
    </>
  ),
};

/**
 * The drawings beside the answers of the record step, for `growth-pictures.tsx` to refer to; stands once in its page, so
 * that no script carries them.
 */
export function GrowthPictureShapes() {
  return (
    <svg width="0" height="0" className="absolute" aria-hidden="true" focusable="false">
      <defs>
        {OFF_COLOURS.map((colour) => (
          <g key={colour} id={`picture-${colour}`}>
            <rect
              x="2"
              y="5"
              width="92"
              height="50"
              rx="3"
              fill="url(#glyph-growth)"
              stroke="var(--box-line)"
              strokeWidth="3"
            />
            <path d={patchesPath(COLOURED)} fill={FILLS[colour]} stroke="#333" strokeWidth=".8" />
            {MARKS[colour]}
          </g>
        ))}
        {GROWTH_DEPTHS.map((depth) => (
          <g key={depth} id={`picture-${depth}`}>
            <rect x="4" y="27" width="88" height="29" fill="url(#glyph-grain)" />
            {GROWN[depth]}
            <path d="M3 4v53h90V4" fill="none" stroke="var(--box-line)" strokeWidth="3" />
          </g>
        ))}
        {WETNESS.map((wetness) => (
          <g key={wetness} id={`picture-${wetness}`}>
            {KERNELS.map(([x, y]) => (
              <ellipse
                key={`${x} ${y}`}
                cx={x}
                cy={y}
                rx="12"
                ry="7.5"
                fill={wetness === "dry" ? "#c9ab7a" : "#b58a4e"}
                stroke="#4a3213"
              />
            ))}
            {WET_MARKS[wetness]}
          </g>
        ))}
      </defs>
    </svg>
  );
}
