import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { cleanTakeOf, offColourTotal, takeFromCover, takeOf } from "@/lib/engine/grading/take";
import type { Measure, OffColour, TakeClass } from "@/shared/vocabulary/growth";

const scales: { ASTM_G21: { levels: Record<string, [number, number]> } } = JSON.parse(
  readFileSync(new URL("../../../lib/reference/grading_scales.json", import.meta.url), "utf8"),
);

describe("take against the published classes of ASTM G21", () => {
  const levels = Object.entries(scales.ASTM_G21.levels);

  test("the scale has the five classes", () =>
    expect(levels.map(([level]) => level)).toEqual(["0", "1", "2", "3", "4"]));

  test.each(levels.filter(([level]) => level !== "0"))(
    "inside class %s, every cover gives that class",
    (level, [from, to]) => {
      for (let step = 1; step < 100; step++) {
        expect(takeFromCover(from + ((to - from) * step) / 100)).toBe(Number(level));
      }
    },
  );
});

test.each([
  [0, 0],
  [0.01, 1],
  [9.99, 1],
  [10, 2],
  [29.99, 2],
  [30, 3],
  [60, 3],
  [60.01, 4],
  [100, 4],
])("a cover of %d %% is take %d", (coverPercent, take) => {
  expect(takeFromCover(coverPercent)).toBe(take);
});

test("more cover is never less take", () => {
  let before = 0;
  for (let tenths = 0; tenths <= 1000; tenths++) {
    const take = takeFromCover(tenths / 10);
    expect(take).toBeGreaterThanOrEqual(before);
    before = take;
  }
});

test.each([-0.1, 100.1, Number.NaN])("a cover of %d %% is misuse", (coverPercent) => {
  expect(() => takeFromCover(coverPercent)).toThrow(RangeError);
});

describe("a picked picture and a typed number", () => {
  const takeWith = (coverPercent: Measure<number>, coverClass: Measure<TakeClass>) =>
    takeOf({ coverPercent, coverClass });

  test("the number decides, and a picture of another class is noted", () => {
    expect(takeWith({ value: 45 }, { value: 2 })).toEqual({ take: 3, from: "PERCENT", classDiffers: true });
    expect(takeWith({ value: 45 }, { value: 3 })).toEqual({ take: 3, from: "PERCENT", classDiffers: false });
    expect(takeWith({ value: 0 }, null)).toEqual({ take: 0, from: "PERCENT", classDiffers: false });
  });

  test.each([null, "not_measured", "cant_tell"] as const)(
    "with a number of %s the picture stands",
    (coverPercent) => {
      expect(takeWith(coverPercent, { value: 0 })).toEqual({ take: 0, from: "CLASS", classDiffers: false });
    },
  );

  test.each([
    [null, null, "NOT_ANSWERED"],
    [null, "cant_tell", "CANT_TELL"],
    ["cant_tell", null, "CANT_TELL"],
    [null, "not_measured", "NOT_MEASURED"],
  ] as const)("number %s and picture %s give no take: %s", (coverPercent, coverClass, reason) => {
    expect(takeWith(coverPercent, coverClass)).toEqual({ take: null, reason });
  });
});

const colours = (
  change: Partial<Record<OffColour, Measure<number>>> = {},
): Record<OffColour, Measure<number>> => ({
  "blue-green": { value: 0 },
  black: { value: 0 },
  "yellow-orange": { value: 0 },
  "pink-red": { value: 0 },
  ...change,
});

describe("off-colour", () => {
  test("is the sum of the four colours", () => {
    expect(offColourTotal(colours({ black: { value: 4 }, "pink-red": { value: 3.5 } }))).toEqual({
      percent: 7.5,
      overWhole: false,
    });
  });

  test("is unknown when one colour is, with the rest as its least and the reason by colour", () => {
    expect(
      offColourTotal(colours({ black: { value: 4 }, "blue-green": "cant_tell", "pink-red": null })),
    ).toEqual({
      percent: null,
      atLeastPercent: 4,
      missing: { "blue-green": "CANT_TELL", "pink-red": "NOT_ANSWERED" },
    });
  });

  test("estimates that add up to more than the surface are kept and flagged", () => {
    expect(offColourTotal(colours({ black: { value: 70 }, "blue-green": { value: 40 } }))).toEqual({
      percent: 110,
      overWhole: true,
    });
  });

  test("tenths that make ten make exactly ten", () => {
    // 0.3 + 7.9 + 1.8 is 10.000000000000002 in binary.
    const total = offColourTotal(
      colours({ "blue-green": { value: 0.3 }, black: { value: 7.9 }, "yellow-orange": { value: 1.8 } }),
    );
    expect(total).toEqual({ percent: 10, overWhole: false });
  });
});

describe("clean take", () => {
  const clean = (coverPercent: Measure<number>, byColour = colours()) =>
    cleanTakeOf(takeOf({ coverPercent, coverClass: null }), offColourTotal(byColour));

  test.each([
    [30, 10, true, ["CLEAN"]],
    [100, 0, true, ["CLEAN"]],
    [29.99, 0, false, ["TAKE_BELOW_3"]],
    [30, 10.01, false, ["OFF_COLOUR_OVER_10_PERCENT"]],
    [0, 50, false, ["TAKE_BELOW_3", "OFF_COLOUR_OVER_10_PERCENT"]],
  ] as const)("cover %d %% with %d %% black: %s", (cover, black, cleanTake, reasons) => {
    expect(clean({ value: cover }, colours({ black: { value: black } }))).toEqual({ cleanTake, reasons });
  });

  test("is unknown while a colour is unknown, however well the box took", () => {
    expect(clean({ value: 90 }, colours({ black: "not_measured" }))).toEqual({
      cleanTake: null,
      reasons: ["OFF_COLOUR_UNKNOWN"],
    });
  });

  test("is unknown while the take is", () => {
    expect(clean("cant_tell")).toEqual({ cleanTake: null, reasons: ["TAKE_UNKNOWN"] });
    expect(clean(null, colours({ black: null }))).toEqual({
      cleanTake: null,
      reasons: ["TAKE_UNKNOWN", "OFF_COLOUR_UNKNOWN"],
    });
  });

  test("is false once one condition fails for certain, whatever else is unknown", () => {
    expect(clean({ value: 5 }, colours({ black: null })).cleanTake).toBe(false);
    expect(clean("cant_tell", colours({ black: { value: 40 } }))).toEqual({
      cleanTake: false,
      reasons: ["OFF_COLOUR_OVER_10_PERCENT"],
    });
    expect(clean({ value: 90 }, colours({ black: { value: 11 }, "pink-red": null })).cleanTake).toBe(false);
  });
});
