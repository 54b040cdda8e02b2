import { v7 as uuidV7 } from "uuid";
import { expect, test } from "vitest";
import { outingSchema } from "@/shared/schemas/outing";
import { MESSAGE_KEY, problemsOf, spoiled } from "./problems";

const boxes = Array.from({ length: 13 }, () => ({ id: uuidV7() }));

// An invented outing.
const outing = {
  id: uuidV7(),
  trialId: uuidV7(),
  siteId: uuidV7(),
  day: "2025-11-14",
  boxKind: "softwood",
  innerLengthCm: 20.3,
  innerWidthCm: 15,
  innerHeightCm: 8,
  grainDepthCm: 5,
  cover: "paper",
  coverClear: true,
  guard: "wire-cage",
  boxes: boxes.slice(0, 4),
  grainsAtHand: ["rye", "barley-pearl"],
};

test.each([
  {},
  { boxes: boxes.slice(0, 2) },
  { boxes: boxes.slice(0, 12) },
  { grainDepthCm: 7.5 },
  { innerLengthCm: 99.9 },
  { day: "2024-02-29" },
  { innerHeightCm: 5 },
  { innerHeightCm: null, coverClear: null },
])("%o is within the limits", (change) => {
  expect(problemsOf(outingSchema, { ...outing, ...change })).toEqual([]);
});

test.each([
  [{ boxes: boxes.slice(0, 1) }, "boxes: outing.boxes.count"],
  [{ boxes }, "boxes: outing.boxes.count"],
  [{ boxes: [boxes[0], boxes[0]] }, "boxes: outing.boxes.repeated"],
  [{ grainDepthCm: 7.6 }, "grainDepthCm: outing.grainDepth.range"],
  [{ grainDepthCm: 5.05 }, "grainDepthCm: outing.grainDepth.tooFine"],
  [{ innerLengthCm: 20.33 }, "innerLengthCm: outing.innerLength.tooFine"],
  [{ innerHeightCm: 5, grainDepthCm: 5.1 }, "innerHeightCm: outing.innerHeight.belowGrain"],
  [{ coverClear: "yes" }, "coverClear: outing.coverClear.choice"],
  [{ innerWidthCm: 0 }, "innerWidthCm: outing.innerWidth.range"],
  [{ day: "14.11.2025" }, "day: outing.day.date"],
  [{ day: "2025-02-29" }, "day: outing.day.date"],
  [{ grainsAtHand: [] }, "grainsAtHand: outing.grainsAtHand.empty"],
  [{ grainsAtHand: ["rye", "rye"] }, "grainsAtHand: outing.grainsAtHand.repeated"],
  [{ growerId: uuidV7() }, ": outing.fields"],
])("%o is refused by its code", (change, problem) => {
  expect(problemsOf(outingSchema, { ...outing, ...change })).toEqual([problem]);
});

test("every length to the millimetre is accepted, whatever its binary form", () => {
  for (let millimetres = 50; millimetres <= 1000; millimetres++) {
    expect(problemsOf(outingSchema, { ...outing, innerLengthCm: millimetres / 10 })).toEqual([]);
  }
});

test("every message is a key of the catalogue, never prose", () => {
  const problems = spoiled(outing).flatMap((bad) => problemsOf(outingSchema, bad));
  expect(problems.length).toBeGreaterThan(120);
  expect(problems.filter((problem) => !MESSAGE_KEY.test(problem))).toEqual([]);
});
