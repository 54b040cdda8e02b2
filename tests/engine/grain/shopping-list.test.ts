import { expect, test } from "vitest";
import { amountsPerBox } from "@/lib/engine/grain/cooking-amounts";
import { mostGrainBeforeDraw, type NamedRecipe, shoppingList } from "@/lib/engine/grain/shopping-list";
import { GRAIN_FIGURES } from "@/lib/reference/grains";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { BARLEY_RECIPE } from "./recipes";

const fill = { innerLengthCm: 20, innerWidthCm: 15, grainDepthCm: 5 };

function recipe(variantId: string, change: Partial<VariantContent>): NamedRecipe {
  const content = { ...BARLEY_RECIPE, ...change };
  return { variantId, content, figures: GRAIN_FIGURES[content.grain] };
}

const firmBarley = recipe("firm barley", { waterToGrain: 1 });
const wetBarley = recipe("wet barley", { waterToGrain: 2 });
const rice = recipe("rice", { grain: "white-rice-long", waterToGrain: 1.2 });
const weighable = [firmBarley, wetBarley, rice];

function dryGrainMassG(one: NamedRecipe): number {
  const result = amountsPerBox(one, fill);
  if (!result.ok) throw new Error(result.reason);
  return result.amounts.dryGrainMassG;
}

test("boxes of one recipe are one batch, and a grain is bought for all its recipes", () => {
  const result = shoppingList([rice, wetBarley, rice, firmBarley, rice], fill);
  if (!result.ok) throw new Error(result.reason);
  expect(result.list.batches.map((batch) => [batch.variantId, batch.boxes])).toEqual([
    ["rice", 3],
    ["wet barley", 1],
    ["firm barley", 1],
  ]);
  expect(result.list.batches[0]).toMatchObject({
    dryGrainMassG: 3 * dryGrainMassG(rice),
    waterMassG: 3 * result.list.batches[0]!.perBox.waterMassG,
    cookedMassG: 3 * result.list.batches[0]!.perBox.cookedMassG,
  });
  expect(result.list.grains).toEqual([
    { grain: "white-rice-long", dryGrainMassG: 3 * dryGrainMassG(rice) },
    { grain: "barley-pearl", dryGrainMassG: dryGrainMassG(wetBarley) + dryGrainMassG(firmBarley) },
  ]);
});

test("before the draw, a grain's most is every box in its driest recipe, which takes the most dry grain", () => {
  const result = mostGrainBeforeDraw(weighable, fill, 6);
  if (!result.ok) throw new Error(result.reason);
  expect(dryGrainMassG(firmBarley)).toBeGreaterThan(dryGrainMassG(wetBarley));
  expect(result.grains).toEqual([
    { grain: "barley-pearl", dryGrainMassG: 6 * dryGrainMassG(firmBarley) },
    { grain: "white-rice-long", dryGrainMassG: 6 * dryGrainMassG(rice) },
  ]);
});

test("a draw's limit of boxes per recipe is counted, heaviest recipe first", () => {
  const result = mostGrainBeforeDraw(weighable, fill, 5, 3);
  if (!result.ok) throw new Error(result.reason);
  expect(result.grains).toEqual([
    { grain: "barley-pearl", dryGrainMassG: 3 * dryGrainMassG(firmBarley) + 2 * dryGrainMassG(wetBarley) },
    { grain: "white-rice-long", dryGrainMassG: 3 * dryGrainMassG(rice) },
  ]);
});

test.each([1, 2, 4])(
  "no draw of 4 boxes with at most %d per recipe asks for more of a grain than was told",
  (limit) => {
    const most = mostGrainBeforeDraw(weighable, fill, 4, limit);
    if (!most.ok) throw new Error(most.reason);
    // Every way of filling 4 boxes with 3 recipes.
    for (let code = 0; code < 3 ** 4; code++) {
      const drawn = [1, 3, 9, 27].map((place) => weighable[Math.floor(code / place) % 3]!);
      if (weighable.some((one) => drawn.filter((other) => other === one).length > limit)) continue;
      const list = shoppingList(drawn, fill);
      if (!list.ok) throw new Error(list.reason);
      for (const { grain, dryGrainMassG: neededG } of list.list.grains) {
        expect(neededG).toBeLessThanOrEqual(most.grains.find((one) => one.grain === grain)!.dryGrainMassG);
      }
    }
  },
);

test("a recipe that cannot be weighed is refused by its id", () => {
  const flaked = recipe("flaked by cups", { form: "flaked", ratioBasis: "volume" });
  const refusal = { ok: false, reason: "BULK_DENSITY_UNKNOWN", variantId: "flaked by cups" };
  expect(shoppingList([rice, flaked], fill)).toEqual(refusal);
  expect(mostGrainBeforeDraw([rice, flaked], fill, 4)).toEqual(refusal);
});

test("no boxes, or parts of boxes, are misuse", () => {
  expect(() => mostGrainBeforeDraw(weighable, fill, 0)).toThrow(RangeError);
  expect(() => mostGrainBeforeDraw(weighable, fill, 4, 1.5)).toThrow(RangeError);
});
