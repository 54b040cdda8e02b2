import { createHash } from "node:crypto";
import { describe, expect, test } from "vitest";
import { canonicalVariant, normaliseVariant, variantHash } from "@/lib/engine/grain/variant-identity";
import { seededSource } from "@/lib/engine/random/source";
import { type VariantContent, variantContentSchema } from "@/shared/schemas/protocol-variant";
import { COOK_METHODS, COOLING_WAYS, GRAIN_FORMS, GRAINS, RATIO_BASES } from "@/shared/vocabulary/grain";
import { BARLEY_RECIPE } from "./recipes";

// Written by hand by the rules of RFC 8785: members by name, numbers in their shortest form, no white space.
const CANONICAL_BARLEY =
  '{"content":{"cookMethod":"absorption","cookMinutes":30,"cooling":"spread-thin","form":"whole",' +
  '"grain":"barley-pearl","ratioBasis":"mass","rinsed":false,"soakHours":0,"waterToGrain":1.5},"identityVersion":1}';

test("the canonical text is RFC 8785 and the hash is its SHA-256 (Node's own)", () => {
  expect(canonicalVariant(BARLEY_RECIPE)).toBe(CANONICAL_BARLEY);
  expect(variantHash(BARLEY_RECIPE)).toBe(createHash("sha256").update(CANONICAL_BARLEY).digest("hex"));
});

test.each(["1.50", "1.5", "15e-1", "0.15E1", "1.5000000001", "1.504", "1.4950000001"])(
  "a ratio written %s is the same recipe",
  (spelling) => {
    const text = JSON.stringify(BARLEY_RECIPE).replace('"waterToGrain":1.5', `"waterToGrain":${spelling}`);
    expect(variantHash(variantContentSchema.parse(JSON.parse(text)))).toBe(variantHash(BARLEY_RECIPE));
  },
);

test("minus zero hours of soaking is zero hours", () => {
  expect(Object.is(normaliseVariant({ ...BARLEY_RECIPE, soakHours: -0 }).soakHours, 0)).toBe(true);
  expect(variantHash({ ...BARLEY_RECIPE, soakHours: -0.01 })).toBe(variantHash(BARLEY_RECIPE));
});

const changes: Partial<VariantContent>[] = [
  { grain: "rye" },
  { form: "cracked" },
  { rinsed: true },
  { soakHours: 0.1 },
  { waterToGrain: 1.51 },
  { ratioBasis: "volume" },
  { cookMethod: "steam" },
  { cookMinutes: 31 },
  { cooling: "open-pot" },
];

test("every part of the content counts: changing any one gives another identity", () => {
  expect(changes.map((change) => Object.keys(change)[0]).sort()).toEqual(Object.keys(BARLEY_RECIPE).sort());
  const hashes = [BARLEY_RECIPE, ...changes.map((change) => ({ ...BARLEY_RECIPE, ...change }))].map(
    variantHash,
  );
  expect(new Set(hashes).size).toBe(changes.length + 1);
});

test("what is no part of the content, such as a box, does not enter the identity", () => {
  const withBox = { ...BARLEY_RECIPE, boxKind: "hardwood" };
  expect(variantHash(withBox)).toBe(variantHash(BARLEY_RECIPE));
});

describe("for random recipes", () => {
  const source = seededSource("variant identity");
  const pick = <T>(items: readonly T[]) => items[source.below(items.length)]!;
  const recipes = Array.from({ length: 200 }, (): VariantContent => {
    const cookMethod = pick(COOK_METHODS);
    return {
      grain: pick(GRAINS),
      form: pick(GRAIN_FORMS),
      rinsed: source.below(2) === 1,
      soakHours: 48 * source.unit(),
      waterToGrain: 0.2 + 4.8 * source.unit(),
      ratioBasis: pick(RATIO_BASES),
      cookMethod,
      cookMinutes: cookMethod === "none" ? 0 : 1 + source.below(180),
      cooling: pick(COOLING_WAYS),
    };
  });

  test("member order does not matter", () => {
    for (const recipe of recipes) {
      const shuffled = Object.fromEntries(source.shuffle(Object.entries(recipe))) as VariantContent;
      expect(variantHash(shuffled)).toBe(variantHash(recipe));
    }
  });

  test("normalising twice changes nothing, moves no number by more than half a step, and stays valid", () => {
    for (const recipe of recipes) {
      const once = normaliseVariant(recipe);
      expect(normaliseVariant(once)).toEqual(once);
      expect(variantHash(once)).toBe(variantHash(recipe));
      expect(Math.abs(once.waterToGrain - recipe.waterToGrain)).toBeLessThanOrEqual(0.005 + 1e-12);
      expect(Math.abs(once.soakHours - recipe.soakHours)).toBeLessThanOrEqual(0.05 + 1e-12);
      expect(variantContentSchema.safeParse(once).success).toBe(true);
    }
  });
});

test("a number that is not finite is misuse", () => {
  expect(() => variantHash({ ...BARLEY_RECIPE, waterToGrain: Number.NaN })).toThrow(RangeError);
});
