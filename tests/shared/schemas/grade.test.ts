import { v7 as uuidV7 } from "uuid";
import { describe, expect, test } from "vitest";
import { gradeSchema } from "@/shared/schemas/grade";
import { MESSAGE_KEY, problemsOf, spoiled } from "./problems";

const grade = {
  id: uuidV7(),
  boxId: uuidV7(),
  measures: {
    coverPercent: { value: 45 },
    coverClass: { value: 3 },
    offColourPercent: {
      "blue-green": { value: 2 },
      black: "cant_tell",
      "yellow-orange": "not_measured",
      "pink-red": null,
    },
    depth: { value: "between-grains" },
    wetness: { value: "moist" },
    warmth: { value: "same" },
    smell: { value: ["mushroom", "sweet"] },
    usableMassG: { value: 410 },
    totalMassG: { value: 520.5 },
  },
  openedAt: "2025-11-19T16:05:00+01:00",
  recordedAt: "2025-11-19T16:12:00+01:00",
  note: null,
};

const withMeasures = (change: object) => ({ ...grade, measures: { ...grade.measures, ...change } });

describe("a measure", () => {
  const names = Object.keys(grade.measures).filter((name) => name !== "offColourPercent");

  test.each(names)("%s may be not measured, can't tell or unanswered, and is never filled in", (name) => {
    for (const answer of ["not_measured", "cant_tell", null]) {
      expect(gradeSchema.parse(withMeasures({ [name]: answer })).measures).toHaveProperty(name, answer);
    }
    expect(problemsOf(gradeSchema, withMeasures({ [name]: undefined })).length).toBeGreaterThan(0);
  });

  test("a grade with nothing but blanks can be saved", () => {
    const offColourPercent = { "blue-green": null, black: null, "yellow-orange": null, "pink-red": null };
    const blanks = Object.fromEntries(names.map((name) => [name, null]));
    expect(problemsOf(gradeSchema, withMeasures({ ...blanks, offColourPercent }))).toEqual([]);
  });
});

test.each([
  [{ coverPercent: { value: 100.1 } }, "measures.coverPercent.value: grade.percent.range"],
  [{ coverPercent: { value: -1 } }, "measures.coverPercent.value: grade.percent.range"],
  [{ smell: { value: ["none", "sour"] } }, "measures.smell.value: grade.smell.noneStandsAlone"],
  [{ smell: { value: ["sour", "sour"] } }, "measures.smell.value: grade.smell.repeated"],
  [{ smell: { value: [] } }, "measures.smell.value: grade.smell.empty"],
  [{ usableMassG: { value: 521 } }, "measures.usableMassG: grade.usableMass.overTotal"],
])("%o is refused by its code", (change, problem) => {
  expect(problemsOf(gradeSchema, withMeasures(change))).toEqual([problem]);
});

test.each([
  { coverPercent: 45 },
  { coverPercent: "unknown" },
  { coverClass: { value: 5 } },
  { coverClass: { value: 2.5 } },
  { coverPercent: { value: 45, guess: true } },
  { depth: { value: "deep" } },
])("%o has no shape of a measure", (change) => {
  const problems = problemsOf(gradeSchema, withMeasures(change));
  expect(problems[0]).toMatch(/: grade\.measure\.shape$/);
});

test("usable and total grams are compared only when both are known", () => {
  expect(problemsOf(gradeSchema, withMeasures({ totalMassG: "not_measured" }))).toEqual([]);
  expect(problemsOf(gradeSchema, withMeasures({ usableMassG: { value: 520.5 } }))).toEqual([]);
});

test.each([{ masked: true }, { graderId: uuidV7() }, { take: 3 }])("a phone cannot send %o", (change) => {
  expect(problemsOf(gradeSchema, { ...grade, ...change })).toEqual([": grade.fields"]);
});

test("the hour of opening may be unknown, that of the record not", () => {
  expect(problemsOf(gradeSchema, { ...grade, openedAt: null })).toEqual([]);
  expect(problemsOf(gradeSchema, { ...grade, recordedAt: null })).toEqual(["recordedAt: moment.offset"]);
});

test("every message is a key of the catalogue, never prose", () => {
  const problems = spoiled(grade).flatMap((bad) => problemsOf(gradeSchema, bad));
  expect(problems.length).toBeGreaterThan(200);
  expect(problems.filter((problem) => !MESSAGE_KEY.test(problem))).toEqual([]);
});
