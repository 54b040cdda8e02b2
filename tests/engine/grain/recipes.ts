import type { VariantContent } from "@/shared/schemas/protocol-variant";

/** An invented recipe to vary: whole pearl barley, 1.5 g of water per gram, 30 minutes under the lid. */
export const BARLEY_RECIPE: VariantContent = {
  grain: "barley-pearl",
  form: "whole",
  rinsed: false,
  soakHours: 0,
  waterToGrain: 1.5,
  ratioBasis: "mass",
  cookMethod: "absorption",
  cookMinutes: 30,
  cooling: "spread-thin",
};
