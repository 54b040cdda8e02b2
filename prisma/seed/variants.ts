import type { VariantContent } from "@/shared/schemas/protocol-variant";

interface DemoVariant {
  readonly id: string;
  readonly name: string;
  readonly content: VariantContent;
}

const RICE = { grain: "brown-rice-medium", cookMinutes: 35 } as const;
const WHEAT = { grain: "wheat-hard-winter", cookMinutes: 45 } as const;
const BARLEY = { grain: "barley-pearl", cookMinutes: 30 } as const;

function variant(
  id: string,
  name: string,
  grain: Pick<VariantContent, "grain" | "cookMinutes">,
  waterToGrain: number,
): DemoVariant {
  return {
    id: `019a0000-0000-7000-8000-0000000002${id}`,
    name,
    content: {
      ...grain,
      form: "whole",
      rinsed: true,
      soakHours: 0,
      waterToGrain,
      ratioBasis: "mass",
      cookMethod: "absorption",
      cooling: "spread-thin",
    },
  };
}

/** Three grains × two amounts of water, in the order of the trial's arms. Invented. */
export const DEMO_VARIANTS: readonly DemoVariant[] = [
  variant("01", "Brown rice, firm", RICE, 1),
  variant("02", "Brown rice, soft", RICE, 1.5),
  variant("03", "Wheat, firm", WHEAT, 1),
  variant("04", "Wheat, soft", WHEAT, 1.5),
  variant("05", "Pearl barley, firm", BARLEY, 1),
  variant("06", "Pearl barley, soft", BARLEY, 1.5),
];
