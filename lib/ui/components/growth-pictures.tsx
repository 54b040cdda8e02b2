import type { GrowthDepth, OffColour, Wetness } from "@/shared/vocabulary/growth";

/**
 * A drawn picture beside an answer of the record step: patches of a colour in a box overgrown white, a box cut open from
 * the side, or grains close to. Decoration: the words beside it say the same, and what differs by colour differs by
 * pattern too. Its page holds the drawing (`GrowthPictureShapes`).
 */
export function GrowthPicture({ of }: { of: OffColour | GrowthDepth | Wetness }) {
  return (
    <svg viewBox="0 0 96 60" className="block w-full max-w-40" aria-hidden="true" focusable="false">
      <use href={`#picture-${of}`} />
    </svg>
  );
}
