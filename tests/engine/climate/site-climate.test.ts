import { describe, expect, it } from "vitest";
import type { KoppenGrid } from "@/lib/engine/climate/grid";
import { gridCellAt } from "@/lib/engine/climate/grid";
import type { ClimateStation } from "@/lib/engine/climate/nearest";
import { classifyOwn, siteClimate } from "@/lib/engine/climate/site-climate";
import { months } from "./helpers";

/** A made-up world of 60° cells: ice in the south, a middle of sea with a steppe and a tropical cell, sea. */
const grid: KoppenGrid = {
  cellDeg: 60,
  southRowLatitude: -60,
  westColumnLongitude: -150,
  rows: ["EF*6", "*2;BSk*1;*2;As*1", "*6"],
};
const station: ClimateStation = {
  name: "Invented",
  country: "Nowhere",
  latitude: 0,
  longitude: -30,
  elevationM: 100,
  monthlyMeanC: months(14, { 0: 5, 6: 21 }),
  monthlyRainMm: months(100),
};
const at = (latitude: number, longitude: number, elevationM: number, stations = [station]) =>
  siteClimate({ latitude, longitude, elevationM }, { stations, grid });

describe("siteClimate", () => {
  it("uses the nearest station moved to the site's elevation, and says how far and how much higher", () => {
    const climate = at(0, -30.5, 300);
    expect(climate).toMatchObject({
      ok: true,
      source: "station",
      koppenClass: "Cfb",
      station: { name: "Invented", country: "Nowhere", heightDifferenceM: 200, elevationM: 100 },
      notes: [],
    });
    if (!climate.ok || climate.source !== "station") throw new Error("expected a station");
    expect(climate.station.distanceKm).toBeCloseTo(55.6, 1);
    expect(climate.normals.monthlyMeanC[6]).toBe(19.7);
    expect(climate.criteria.thotC).toBe(19.7);
    expect(climate.nearBoundary).toEqual([]);
  });

  it("says near a boundary by the moved normals, not the station's", () => {
    expect(at(0, -30, 100)).toMatchObject({ nearBoundary: [{ change: "WARMER_1_C", koppenClass: "Cfa" }] });
    expect(at(0, -30, 200)).toMatchObject({ nearBoundary: [] });
  });

  it("keeps the station at exactly 800 m of height and drops it above, up or down", () => {
    expect(at(0, -30, 900)).toMatchObject({ source: "station" });
    expect(at(0, -30, 901)).toMatchObject({
      source: "grid",
      koppenClass: "BSk",
      cellCentre: { latitude: 0, longitude: -30 },
      normals: null,
      nearBoundary: null,
      station: { heightDifferenceM: 801 },
      notes: ["STATION_HEIGHT_TOO_DIFFERENT", "GRID_1951_2000"],
    });
    const summit = { ...station, elevationM: 1500 };
    expect(at(0, -30, 699, [summit])).toMatchObject({ source: "grid", station: { heightDifferenceM: -801 } });
  });

  it("drops a station beyond 150 km", () => {
    expect(at(0, -31.34, 100)).toMatchObject({ source: "station" }); // 149.0 km
    expect(at(0, -31.36, 100)).toMatchObject({
      source: "grid",
      notes: ["STATION_TOO_FAR", "GRID_1951_2000"],
    });
    expect(at(0, -40, 2000)).toMatchObject({
      notes: ["STATION_TOO_FAR", "STATION_HEIGHT_TOO_DIFFERENT", "GRID_1951_2000"],
    });
  });

  it("reads the grid's As as Aw and says so", () => {
    expect(at(0, 150, 0, [])).toMatchObject({
      koppenClass: "Aw",
      station: null,
      notes: ["NO_STATION", "GRID_1951_2000", "GRID_AS_READ_AS_AW"],
    });
  });

  it("refuses at sea with no station near, and asks for the grower's own numbers", () => {
    expect(at(0, 30, 0)).toMatchObject({
      ok: false,
      reason: "NO_CLIMATE_HERE",
      remedy: "GIVE_OWN_NORMALS",
      station: { name: "Invented" },
      notes: ["STATION_TOO_FAR"],
    });
  });

  it("does not refuse at sea when a station is near (small islands)", () => {
    expect(at(1, 0, 0, [{ ...station, longitude: 0 }])).toMatchObject({ ok: true, source: "station" });
  });

  it("throws for positions off the globe and elevations that are no number", () => {
    expect(() => at(91, 0, 0)).toThrow(RangeError);
    expect(() => at(0, 181, 0)).toThrow(RangeError);
    expect(() => at(Number.NaN, 0, 0)).toThrow(RangeError);
    expect(() => at(0, 0, Number.NaN)).toThrow(RangeError);
  });
});

describe("classifyOwn", () => {
  it("classifies 24 given numbers as they are", () => {
    expect(classifyOwn(station)).toMatchObject({
      ok: true,
      source: "own",
      koppenClass: "Cfb",
      nearBoundary: [{ change: "WARMER_1_C", koppenClass: "Cfa" }],
    });
  });
});

describe("gridCellAt", () => {
  it("holds the whole globe: poles, both edges of the antimeridian, cell edges belong to the north-east cell", () => {
    const code = (latitude: number, longitude: number) =>
      gridCellAt(grid, { latitude, longitude })?.koppenClass;
    expect(code(-90, 0)).toBe("EF");
    expect(code(90, 0)).toBeUndefined();
    expect(code(0, 180)).toBe(code(0, -180));
    expect(code(0, -60)).toBe("BSk");
    expect(code(0, -60.01)).toBeUndefined();
    expect(code(29.99, -0.01)).toBe("BSk");
    expect(code(30, -0.01)).toBeUndefined();
  });

  it("throws on a damaged grid", () => {
    const damaged = (rows: string[]) => gridCellAt({ ...grid, rows }, { latitude: -60, longitude: 150 });
    expect(() => damaged(["EF*3"])).toThrow(/restore the shipped file/);
    expect(() => damaged(["Xq*6"])).toThrow(/no Köppen class/);
  });
});
