import { describe, expect, it } from "vitest";
import { joinedGroups } from "@/lib/engine/statistics/joined-groups";

const groups = (sizes: Record<string, string>) =>
  new Map(Object.entries(sizes).map(([code, growers]) => [code, new Set(growers)]));

describe("joined climate groups", () => {
  it("are none where each has enough growers", () => {
    expect(joinedGroups(groups({ wet: "abc", dry: "cde" }), 3)).toBeNull();
  });

  it("are all that have too few, in the trial's order", () => {
    const found = joinedGroups(groups({ wet: "abc", dry: "de", cold: "fgh", hot: "i" }), 3);
    expect(found).toEqual({ code: "dry+hot", of: ["dry", "hot"] });
  });

  it("take the smallest of the others in where they are still too few, a grower in both counting once", () => {
    expect(joinedGroups(groups({ wet: "abcd", dry: "d", cold: "dfg" }), 3)).toEqual({
      code: "dry+cold",
      of: ["dry", "cold"],
    });
    expect(joinedGroups(groups({ wet: "ab", dry: "ab" }), 3)).toBe(false);
  });

  it("can't be made of fewer growers than the minimum, or of nobody", () => {
    expect(joinedGroups(groups({ wet: "ab" }), 3)).toBe(false);
    expect(joinedGroups(groups({}), 3)).toBe(false);
  });
});
