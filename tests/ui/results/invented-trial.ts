import type { ResultsTrial } from "@/lib/ui/results/context";
import type { StoredPlan } from "@/shared/schemas/plan";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { BARLEY_RECIPE } from "@/tests/engine/grain/recipes";

const recipe = (grain: VariantContent["grain"], waterToGrain: number): VariantContent => ({
  ...BARLEY_RECIPE,
  grain,
  waterToGrain,
});

/** A closed trial of three recipes, two of them of one name, in four climate groups. Invented. */
export const inventedTrial: ResultsTrial = {
  slug: "invented",
  closedAt: new Date("2026-11-05T13:00:00Z"),
  grouping: [
    { code: "Csb", classes: ["Csb"] },
    { code: "Cfb", classes: ["Cfb"] },
    { code: "Csa", classes: ["Csa"] },
    { code: "Dfb", classes: ["Dfb"] },
  ],
  regions: [{ code: "north", name: "North shore" }],
  recipes: [
    { code: "arm0", content: recipe("rye", 1) },
    { code: "arm1", content: recipe("rye", 1) },
    { code: "arm2", content: recipe("spelt", 1.5) },
  ],
  plan: { endsOn: "2026-11-30", minimum: { boxesPerCell: 5, growersPerCell: 3 } } as unknown as StoredPlan,
};
