import { describe, expect, it } from "vitest";
import { nearTwin } from "@/lib/engine/grain/near-twin";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { BARLEY_RECIPE } from "./recipes";

// What counts as near is common practice, no source: these tests hold the function to its own stated limits.

const barley: VariantContent = { ...BARLEY_RECIPE, waterToGrain: 1 };

const compare = (
  changes: Partial<VariantContent>,
  moistures: [number | null, number | null] = [0.55, 0.55],
) =>
  nearTwin(
    { content: barley, moisture: moistures[0] },
    { content: { ...barley, ...changes }, moisture: moistures[1] },
  );

describe("near twins", () => {
  it("name what differs within the limits, the limits included", () => {
    expect(compare({})).toEqual([]);
    expect(compare({ cookMinutes: 35, soakHours: 2 })).toEqual(["cookMinutes", "soakHours"]);
    expect(compare({ rinsed: true, cooling: "open-pot" })).toEqual(["rinsed", "cooling"]);
    expect(compare({ waterToGrain: 1.05 }, [0.55, 0.57])).toEqual(["water"]);
    // The same moisture by cups and by weight: another way of saying the same water.
    expect(compare({ waterToGrain: 0.85, ratioBasis: "volume" }, [0.55, 0.551])).toEqual(["water"]);
  });

  it("are no twins beyond a limit, of another grain or form, or cooked another way", () => {
    expect(compare({ cookMinutes: 36 })).toBeNull();
    expect(compare({ soakHours: 2.1 })).toBeNull();
    expect(compare({ waterToGrain: 1.1 }, [0.55, 0.5701])).toBeNull();
    expect(compare({ grain: "barley-hulled" })).toBeNull();
    expect(compare({ form: "cracked" })).toBeNull();
    expect(compare({ cookMethod: "steam" })).toBeNull();
  });

  it("with unknown moisture are near only at the same ratio", () => {
    expect(compare({ cookMinutes: 28 }, [null, null])).toEqual(["cookMinutes"]);
    expect(compare({ waterToGrain: 1.01 }, [null, null])).toBeNull();
  });

  it("are twins of one another both ways", () => {
    for (const changes of [
      { cookMinutes: 26 },
      { soakHours: 1.5 },
      { waterToGrain: 1.03 },
      { cookMinutes: 40 },
    ]) {
      const other = { content: { ...barley, ...changes }, moisture: 0.56 };
      const one = { content: barley, moisture: 0.55 };
      expect(nearTwin(one, other)).toEqual(nearTwin(other, one));
    }
  });
});
