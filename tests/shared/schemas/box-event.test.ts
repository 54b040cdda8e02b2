import { v7 as uuidV7 } from "uuid";
import { expect, test } from "vitest";
import { boxEventSchema, pinRequestSchema, setReportSchema } from "@/shared/schemas/box-event";
import { BOX_EVENT_KINDS, BOX_EVENTS_BY_TOPIC } from "@/shared/vocabulary/box";
import { MESSAGE_KEY, problemsOf, spoiled } from "./problems";

const event = {
  id: uuidV7(),
  boxId: uuidV7(),
  kind: "rain-inside",
  occurredAt: "2025-11-17T08:30:00+01:00",
  withdrawsId: null,
  note: "A puddle in one corner.",
};

test("every kind belongs to one topic only, and each can be told", () => {
  expect(new Set(BOX_EVENT_KINDS).size).toBe(BOX_EVENT_KINDS.length);
  expect(BOX_EVENT_KINDS.length).toBe(Object.values(BOX_EVENTS_BY_TOPIC).flat().length);
  for (const kind of BOX_EVENT_KINDS) {
    const withdrawsId = kind === "withdrawal" ? uuidV7() : null;
    expect(problemsOf(boxEventSchema, { ...event, kind, withdrawsId })).toEqual([]);
  }
});

test.each([
  ["2025-11-17T08:30:00+01:00", true],
  ["2025-11-17T07:30:00Z", true],
  ["2025-11-17T07:30:00.250-03:30", true],
  ["2025-11-17T07:30:00", false],
  ["2025-11-17", false],
])("the moment %s is accepted: %s", (occurredAt, accepted) => {
  const problems = accepted ? [] : ["occurredAt: moment.offset"];
  expect(problemsOf(boxEventSchema, { ...event, occurredAt })).toEqual(problems);
});

test("a bare withdrawal names the event it takes back, a correction may, and none takes back itself", () => {
  expect(problemsOf(boxEventSchema, { ...event, kind: "withdrawal" })).toEqual([
    "withdrawsId: boxEvent.withdrawsId.missing",
  ]);
  expect(problemsOf(boxEventSchema, { ...event, withdrawsId: uuidV7() })).toEqual([]);
  expect(problemsOf(boxEventSchema, { ...event, withdrawsId: event.id })).toEqual([
    "withdrawsId: boxEvent.withdrawsId.itself",
  ]);
});

test("a note holds 500 characters, and one of blanks only is no note", () => {
  expect(problemsOf(boxEventSchema, { ...event, note: "x".repeat(500) })).toEqual([]);
  expect(problemsOf(boxEventSchema, { ...event, note: "x".repeat(501) })).toEqual(["note: note.long"]);
  expect(boxEventSchema.parse({ ...event, note: "  \n " }).note).toBeNull();
});

test("every message is a key of the catalogue, never prose", () => {
  const problems = spoiled(event).flatMap((bad) => problemsOf(boxEventSchema, bad));
  expect(problems.length).toBeGreaterThan(60);
  expect(problems.filter((problem) => !MESSAGE_KEY.test(problem))).toEqual([]);
});

const otherwise = { kind: "cooked-otherwise", differs: ["burnt"], grain: null, cookMinutes: null };

test.each([
  ["cooked-otherwise", otherwise, []],
  ["not-cooked", { kind: "not-cooked", reason: "spoilt" }, []],
  ["label-gone", { kind: "label-gone", known: false }, []],
  ["animal", otherwise, ["detail: boxEvent.detail"]],
  ["cooked-otherwise", { ...otherwise, differs: [] }, ["detail.differs: boxEvent.differs.empty"]],
  ["cooked-otherwise", { ...otherwise, cookMinutes: 181 }, ["detail.cookMinutes: variant.cookMinutes.range"]],
  ["cooked-otherwise", { ...otherwise, note: "my words" }, ["detail: boxEvent.detail"]],
  ["not-cooked", { kind: "not-cooked", reason: "in my own words" }, ["detail.reason: boxEvent.detail"]],
  [
    "growth-not-recordable",
    { kind: "growth-not-recordable", reason: "other", becauseOf: uuidV7() },
    ["detail: boxEvent.detail"],
  ],
])("the detail of %s is judged by its kind: %o", (kind, detail, problems) => {
  expect(problemsOf(boxEventSchema, { ...event, kind, detail })).toEqual(problems);
});

const pin = {
  latitude: 43.36214,
  longitude: -5.84532,
  accuracyM: 7,
  source: "phone",
  takenAt: "2025-11-17T08:30:00+01:00",
};
const report = {
  id: uuidV7(),
  outingId: uuidV7(),
  occurredAt: "2025-11-17T08:30:00+01:00",
  told: [{ id: uuidV7(), boxId: uuidV7(), kind: "set-out", detail: null }],
  standing: { sunkCm: 2.5, spacingCm: 80 },
  pin,
  note: null,
};

test("a spot and how boxes stand come with a set-out only", () => {
  expect(problemsOf(setReportSchema, report)).toEqual([]);
  const fetched = [{ ...report.told[0], kind: "fetched" }];
  expect(problemsOf(setReportSchema, { ...report, told: fetched })).toEqual([": boxEvent.fields"]);
  expect(problemsOf(setReportSchema, { ...report, told: fetched, standing: null, pin: null })).toEqual([]);
  expect(problemsOf(setReportSchema, { ...report, told: [] })).toContain("told: boxEvent.boxes.none");
});

test.each([
  [{ latitude: 90.1 }, "pin.latitude: site.latitude.range"],
  [{ longitude: Number.NaN }, "pin.longitude: pin.longitude.number"],
  [{ source: "guessed" }, "pin.source: boxEvent.fields"],
])("the spot %o is refused at its field", (change, problem) => {
  const request = { id: uuidV7(), outingId: uuidV7(), pin: { ...pin, ...change } };
  expect(problemsOf(pinRequestSchema, request)).toEqual([problem]);
});

test("every message of a report is a key of the catalogue, never prose", () => {
  const problems = spoiled(report).flatMap((bad) => problemsOf(setReportSchema, bad));
  expect(problems.length).toBeGreaterThan(60);
  expect(problems.filter((problem) => !MESSAGE_KEY.test(problem))).toEqual([]);
});
