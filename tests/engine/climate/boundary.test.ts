import { describe, expect, it } from "vitest";
import { nearBoundaries } from "@/lib/engine/climate/boundary";
import { months } from "./helpers";

describe("nearBoundaries", () => {
  it("is empty where neither 1 °C nor 10 % rain matters", () => {
    expect(nearBoundaries({ monthlyMeanC: months(26), monthlyRainMm: months(200) })).toEqual([]);
  });

  it("names the change and the class it leads to: Thot 21 reaches 22 with 1 °C, 20.9 does not", () => {
    const mild = (hot: number) => ({
      monthlyMeanC: months(12, { 0: 5, 6: hot }),
      monthlyRainMm: months(100),
    });
    expect(nearBoundaries(mild(21))).toEqual([{ change: "WARMER_1_C", koppenClass: "Cfa" }]);
    expect(nearBoundaries(mild(20.9))).toEqual([]);
  });

  it("sees Tcold 1 fall to 0 with 1 °C", () => {
    const cool = { monthlyMeanC: months(12, { 0: 1, 6: 19 }), monthlyRainMm: months(100) };
    expect(nearBoundaries(cool)).toEqual([{ change: "COLDER_1_C", koppenClass: "Dfb" }]);
  });

  it("sees rain cross the dry line, either way", () => {
    // MAT 13, even rain: dry below 400 mm, desert below 200 mm.
    const rain = (mapMm: number) =>
      nearBoundaries({ monthlyMeanC: months(13), monthlyRainMm: months(mapMm / 12) });
    expect(rain(432)).toContainEqual({ change: "DRIER_10_PERCENT", koppenClass: "BSk" });
    expect(rain(372)).toContainEqual({ change: "WETTER_10_PERCENT", koppenClass: "Cfb" });
    expect(rain(210)).toContainEqual({ change: "DRIER_10_PERCENT", koppenClass: "BWk" });
    expect(rain(300)).toEqual([]);
  });
});
