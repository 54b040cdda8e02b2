import { describe, expect, it } from "vitest";
import { LastUsed } from "@/lib/last-used";

describe("values last used", () => {
  it("are so many at most, and the one not asked for longest goes first", () => {
    const last = new LastUsed<number>(3);
    for (const [value, name] of ["a", "b", "c"].entries()) last.set(name, value);
    expect(last.get("a")).toBe(0);
    last.set("d", 3);
    expect([...last.entries()]).toEqual([
      ["c", 2],
      ["a", 0],
      ["d", 3],
    ]);
    expect(last.get("b")).toBeUndefined();
  });

  it("take a new value under an old name", () => {
    const last = new LastUsed<string>(2);
    last.set("a", "old");
    last.set("a", "new");
    expect([...last.entries()]).toEqual([["a", "new"]]);
  });

  it("once listed stay listed, whatever goes since", () => {
    const last = new LastUsed<string>(1);
    last.set("a", "kept");
    const before = last.entries();
    last.set("b", "other");
    expect(before.get("a")).toBe("kept");
  });
});
