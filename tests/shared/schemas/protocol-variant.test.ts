import { expect, test } from "vitest";
import { variantContentSchema } from "@/shared/schemas/protocol-variant";
import { MESSAGE_KEY, problemsOf, spoiled } from "./problems";

// An invented recipe.
const recipe = {
  grain: "rye",
  form: "whole",
  rinsed: true,
  soakHours: 12,
  waterToGrain: 1.2,
  ratioBasis: "mass",
  cookMethod: "absorption",
  cookMinutes: 40,
  cooling: "spread-thin",
};

test.each([
  { soakHours: 0 },
  { soakHours: 48 },
  { waterToGrain: 0.2 },
  { waterToGrain: 5 },
  { cookMinutes: 1 },
  { cookMinutes: 180 },
  { cookMethod: "none", cookMinutes: 0 },
])("%o is within the limits", (change) => {
  expect(problemsOf(variantContentSchema, { ...recipe, ...change })).toEqual([]);
});

test.each([
  [{ soakHours: 48.1 }, "soakHours: variant.soakHours.range"],
  [{ waterToGrain: 0.19 }, "waterToGrain: variant.waterToGrain.range"],
  [{ waterToGrain: 5.01 }, "waterToGrain: variant.waterToGrain.range"],
  [{ waterToGrain: "1.2" }, "waterToGrain: variant.waterToGrain.number"],
  [{ cookMinutes: 181 }, "cookMinutes: variant.cookMinutes.range"],
  [{ cookMinutes: 30.5 }, "cookMinutes: variant.cookMinutes.whole"],
  [{ cookMinutes: 0 }, "cookMinutes: variant.cookMinutes.method"],
  [{ cookMethod: "none" }, "cookMinutes: variant.cookMinutes.method"],
  [{ grain: "gravel" }, "grain: variant.grain.unknown"],
  [{ boxKind: "hardwood" }, ": variant.fields"],
  [{ rinsed: undefined }, "rinsed: variant.rinsed.choice"],
])("%o is refused by its code", (change, problem) => {
  expect(problemsOf(variantContentSchema, { ...recipe, ...change })).toEqual([problem]);
});

test("every message is a key of the catalogue, never prose", () => {
  const problems = spoiled(recipe).flatMap((bad) => problemsOf(variantContentSchema, bad));
  expect(problems.length).toBeGreaterThan(80);
  expect(problems.filter((problem) => !MESSAGE_KEY.test(problem))).toEqual([]);
});
