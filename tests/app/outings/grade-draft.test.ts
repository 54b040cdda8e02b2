import { describe, expect, it } from "vitest";
import { newDraft } from "@/app/outings/[id]/boxes/[position]/grade/_components/draft";
import { faultsOf } from "@/app/outings/[id]/boxes/[position]/grade/_components/faults";
import { measuresOf } from "@/app/outings/[id]/boxes/[position]/grade/_components/measures";
import { type GradeMeasures, gradeMeasuresSchema } from "@/shared/schemas/grade";
import { OFF_COLOURS } from "@/shared/vocabulary/growth";

const unanswered: GradeMeasures = {
  coverPercent: null,
  coverClass: null,
  offColourPercent: { "blue-green": null, black: null, "yellow-orange": null, "pink-red": null },
  depth: null,
  wetness: null,
  warmth: null,
  smell: null,
  usableMassG: null,
  totalMassG: null,
};

/** Records as they stand, from nothing answered to everything, with every way of leaving something open. */
const records: Readonly<Record<string, Partial<GradeMeasures>>> = {
  "nothing answered": {},
  "a picture alone": { coverClass: { value: 0 } },
  "a number beside a picture": { coverClass: { value: 4 }, coverPercent: { value: 45.5 } },
  "a number alone": { coverPercent: { value: 0 } },
  "cover that can't be told": { coverClass: "cant_tell", coverPercent: "cant_tell" },
  "no other colour": { offColourPercent: all({ value: 0 }) },
  "colours not measured": { offColourPercent: all("not_measured") },
  "one colour seen": { offColourPercent: { ...all({ value: 0 }), black: { value: 12 } } },
  "one colour seen that can't be told": { offColourPercent: { ...all({ value: 0 }), black: "cant_tell" } },
  "one colour left open": {
    offColourPercent: { ...all({ value: 0 }), "pink-red": null, black: { value: 3 } },
  },
  "words and weights": {
    depth: { value: "up-the-walls" },
    wetness: "not_measured",
    warmth: { value: "warmer" },
    usableMassG: { value: 410.5 },
    totalMassG: "not_measured",
  },
};

function all(measure: GradeMeasures["offColourPercent"]["black"]): GradeMeasures["offColourPercent"] {
  return { "blue-green": measure, black: measure, "yellow-orange": measure, "pink-red": measure };
}

describe("a correction", () => {
  it.each(Object.keys(records))("changes nothing of %s by itself", (name) => {
    const standing = { ...unanswered, ...records[name] };
    expect(measuresOf(newDraft({ revision: 3, measures: standing }))).toEqual(standing);
  });
});

describe("a draft", () => {
  it("has nothing answered beforehand", () => {
    expect(measuresOf(newDraft(null))).toEqual(unanswered);
  });

  it("takes a decimal comma, and colours not ticked as not there", () => {
    const draft = {
      ...newDraft(null),
      coverPercent: "45,5",
      otherColour: "some" as const,
      seen: ["black" as const],
      colours: { ...newDraft(null).colours, black: { text: "2,5", why: "" as const } },
    };
    const measures = measuresOf(draft);
    expect(measures.coverPercent).toEqual({ value: 45.5 });
    expect(measures.offColourPercent).toEqual({ ...all({ value: 0 }), black: { value: 2.5 } });
    // With none ticked it isn't known which: that is no answer, not "none".
    expect(measuresOf({ ...draft, seen: [] }).offColourPercent).toEqual(all(null));
  });

  it.each(["101", "-1", "abc", "1e999", "4,5,6", "١٢", "100.1", "0", "100", " 7 ", "50001", "NaN", ""])(
    "finds fault with the numbers the server would refuse, and with no other: %s",
    (text) => {
      const typed = { text, why: "" as const };
      const draft = {
        ...newDraft(null),
        coverPercent: text,
        otherColour: "some" as const,
        seen: OFF_COLOURS,
        colours: Object.fromEntries(OFF_COLOURS.map((colour) => [colour, typed])) as never,
        usable: typed,
        total: typed,
      };
      const sent = JSON.parse(JSON.stringify(measuresOf(draft))); // as it travels: no NaN, no infinity
      const parsed = gradeMeasuresSchema.safeParse(sent);
      const refused =
        parsed.error?.issues.map(({ path }) => path.filter((part) => part !== "value").join(".")) ?? [];
      const field = { cover: "coverPercent", usable: "usableMassG", total: "totalMassG" };
      const found = faultsOf(draft).map((fault) =>
        fault.field in field ? field[fault.field as "cover"] : `offColourPercent.${fault.field}`,
      );
      expect(found.sort()).toEqual(refused.sort());
    },
  );

  it("finds more usable than there was in all", () => {
    const draft = {
      ...newDraft(null),
      usable: { text: "500,5", why: "" as const },
      total: { text: "500", why: "" as const },
    };
    expect(faultsOf(draft).map(({ code }) => code)).toEqual(["grade.usableMass.overTotal"]);
    expect(gradeMeasuresSchema.safeParse(measuresOf(draft)).error?.issues[0]?.message).toBe(
      "grade.usableMass.overTotal",
    );
  });
});
