import { describe, expect, it } from "vitest";
import { bandOf } from "@/lib/engine/climate/grouping";
import { climateGroupingSchema } from "@/shared/schemas/climate-grouping";
import {
  type ClimateGrouping,
  classesUnder,
  groupingFaults,
  KOPPEN_CLASSES,
  KOPPEN_MAIN_LETTERS,
  mainLetterOf,
} from "@/shared/vocabulary/climate";
import { seededUniform } from "./helpers";

const byLetter: ClimateGrouping = KOPPEN_MAIN_LETTERS.map((code) => ({ code, classes: classesUnder(code) }));

describe("classes", () => {
  it("are 30: 3 tropical, 4 dry, 9 temperate, 12 cold, 2 polar (Peel et al. 2007, Table 1)", () => {
    expect(byLetter.map(({ classes }) => classes.length)).toEqual([3, 4, 9, 12, 2]);
    expect(new Set(KOPPEN_CLASSES).size).toBe(30);
  });
});

describe("bandOf", () => {
  it("finds the group of every class of a full grouping", () => {
    for (const koppenClass of KOPPEN_CLASSES) {
      expect(bandOf(koppenClass, byLetter)).toEqual({ ok: true, band: mainLetterOf(koppenClass) });
    }
  });

  it("refuses a class the trial has no place for", () => {
    expect(bandOf("EF", byLetter.slice(0, 4))).toEqual({
      ok: false,
      reason: "CLASS_NOT_IN_TRIAL",
      koppenClass: "EF",
    });
  });

  it("gives back the group each class was put in, for any grouping without faults", () => {
    const uniform = seededUniform(30);
    for (let i = 0; i < 200; i++) {
      const groups = 1 + Math.floor(6 * uniform());
      const placed = KOPPEN_CLASSES.map((koppenClass) => ({
        koppenClass,
        g: Math.floor((groups + 1) * uniform()),
      }));
      const grouping = Array.from({ length: groups }, (_, g) => ({
        code: `g${g}`,
        classes: placed.filter((p) => p.g === g).map((p) => p.koppenClass),
      })).filter(({ classes }) => classes.length > 0);
      if (grouping.length === 0) continue;
      expect(groupingFaults(grouping)).toEqual([]);
      for (const { koppenClass, g } of placed) {
        const result = bandOf(koppenClass, grouping);
        expect(result.ok ? result.band : null).toBe(g < groups ? `g${g}` : null);
      }
    }
  });
});

describe("climateGroupingSchema", () => {
  const messages = (input: unknown) =>
    climateGroupingSchema.safeParse(input).error?.issues.map((i) => i.message);

  it("accepts a grouping and leaves it as it is", () => {
    expect(climateGroupingSchema.parse(byLetter)).toEqual(byLetter);
  });

  it.each([
    [[], "grouping.noGroups"],
    [[{ code: "dry", classes: [] }], "grouping.group.empty"],
    [
      [
        { code: "a", classes: ["Csa"] },
        { code: "b", classes: ["Csa"] },
      ],
      "grouping.class.repeated",
    ],
    [[{ code: "a", classes: ["Csa", "Csa"] }], "grouping.class.repeated"],
    [
      [
        { code: "a", classes: ["Csa"] },
        { code: "a", classes: ["Csb"] },
      ],
      "grouping.code.repeated",
    ],
    [[{ code: "a", classes: ["Cxa"] }], "grouping.class.unknown"],
    [[{ code: "a b", classes: ["Csa"] }], "grouping.code.form"],
    [[{ classes: ["Csa"] }], "grouping.code.text"],
    ["all", "grouping.list"],
  ])("refuses %j with %s", (input, message) => expect(messages(input)).toEqual([message]));

  it("points at the class that stands twice", () => {
    const faults = groupingFaults([
      { code: "a", classes: ["Csa"] },
      { code: "b", classes: ["Csb", "Csa"] },
    ]);
    expect(faults).toEqual([{ code: "CLASS_REPEATED", at: [1, "classes", 1] }]);
  });
});
