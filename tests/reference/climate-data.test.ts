import { describe, expect, it } from "vitest";
import { greatCircleKm, nearestStation } from "@/lib/engine/climate/nearest";
import { siteClimate } from "@/lib/engine/climate/site-climate";
import { loadKoppenGrid } from "@/lib/reference/koppen-grid";
import { loadStations, type StationRow, stationOf } from "@/lib/reference/normals";
import rawRows from "@/lib/reference/wmo-normals-1991-2020.json";

const rows = rawRows as unknown as readonly StationRow[];
const stations = await loadStations();
const grid = await loadKoppenGrid();

describe("stations", () => {
  it("are those of the file less the ten without elevation", () => {
    expect(rows).toHaveLength(4616);
    const left = rows.filter((row) => stationOf(row) === null).map(([name]) => name);
    expect(left).toEqual([
      "SharmElSheikhAP",
      "KOUNDARA",
      "BUGARAMA_RIZ",
      "Ambagan_CTG",
      "BASRA",
      "KHANAQIN",
      "BRUNEI",
      "CasiguranAurora",
      "CuyoPalawan",
      "SangleyPointCavite",
    ]);
    expect(stations).toHaveLength(4606);
  });

  it("have plausible positions, elevations and 24 normals", () => {
    for (const s of stations) {
      expect(Math.abs(s.latitude) <= 90 && Math.abs(s.longitude) <= 180).toBe(true);
      expect(s.elevationM > -430 && s.elevationM < 6000).toBe(true);
      expect(s.monthlyMeanC).toHaveLength(12);
      expect(s.monthlyRainMm).toHaveLength(12);
      expect([...s.monthlyMeanC, ...s.monthlyRainMm].every(Number.isFinite)).toBe(true);
      expect(Math.min(...s.monthlyMeanC) > -60 && Math.max(...s.monthlyMeanC) < 45).toBe(true);
    }
  });

  it("are read once", async () => expect(await loadStations()).toBe(stations));

  // Positions of towns and airports from memory; as the file has them these stations lie 30 to 100 km off.
  it.each([
    ["KrakowBalice", 50.078, 19.785],
    ["WarszawaOkecie", 52.166, 20.967],
    ["Zakopane", 49.3, 19.95],
    ["Slubice", 52.35, 14.56],
    ["CairoAP", 30.12, 31.41],
    ["Luxor", 25.69, 32.64],
    ["AlexandriaNouzha", 31.19, 29.95],
    ["Asswan", 23.97, 32.82],
  ])("%s is mended to within 10 km", (name, latitude, longitude) => {
    const row = rows.find((r) => r[0] === name)!;
    const town = { latitude, longitude };
    expect(greatCircleKm(stationOf(row)!, town)).toBeLessThan(10);
    expect(greatCircleKm({ latitude: row[2], longitude: row[3] }, town)).toBeGreaterThan(10);
  });

  it("mends only within the file's own degrees, in Poland and Egypt alone", () => {
    let mended = 0;
    for (const row of rows) {
      const station = stationOf(row);
      if (station === null) continue;
      const [, country, latitude, longitude] = row;
      if (country === "Poland" || country === "Egypt") {
        expect(Math.floor(station.latitude)).toBe(Math.floor(latitude));
        expect(Math.floor(station.longitude)).toBe(Math.floor(longitude));
        mended += 1;
      } else {
        expect([station.latitude, station.longitude]).toEqual([latitude, longitude]);
      }
    }
    expect(mended).toBe(60);
  });
});

describe("climate of known places", () => {
  // Class, position and elevation of each place from memory.
  it.each([
    ["Singapore", 1.3, 103.8, 15, "Af"],
    ["Cairo", 30, 31.2, 25, "BWh"],
    ["Bilbao", 43.3, -2.9, 20, "Cfb"],
    ["Seville", 37.4, -6, 10, "Csa"],
    ["Kraków", 50.1, 19.9, 220, "Dfb"],
    ["Arkhangelsk", 64.5, 40.5, 10, "Dfc"],
    ["A Coruña", 43.4, -8.4, 50, "Csb"],
    ["Buenos Aires", -34.6, -58.4, 25, "Cfa"],
  ])("%s is by its station %s", (_, latitude, longitude, elevationM, koppenClass) => {
    const climate = siteClimate({ latitude, longitude, elevationM }, { stations, grid });
    expect(climate).toMatchObject({ ok: true, source: "station", koppenClass });
  });

  // Portugal has no station in the file. From memory: the south Csa, the north Csb.
  it.each([
    ["Lisbon", 38.7, -9.1, 80, "Csa"],
    ["Coimbra", 40.2, -8.4, 80, "Csb"],
  ])("%s has no station near and falls to the grid", (_, latitude, longitude, elevationM, koppenClass) => {
    expect(siteClimate({ latitude, longitude, elevationM }, { stations, grid })).toMatchObject({
      source: "grid",
      koppenClass,
    });
  });

  it("says of Santiago de Compostela that a drier summer would make it Csb", () => {
    // Its driest summer month has 41 mm in the file; the printed line is 40 mm.
    const place = { latitude: 42.9, longitude: -8.5, elevationM: 370 };
    const climate = siteClimate(place, { stations, grid });
    expect(climate).toMatchObject({ koppenClass: "Cfb", criteria: { psdryMm: 41 } });
    expect(climate.ok && climate.nearBoundary).toContainEqual({
      change: "DRIER_10_PERCENT",
      koppenClass: "Csb",
    });
  });

  it("refuses the open Atlantic", () => {
    const climate = siteClimate({ latitude: 30, longitude: -45, elevationM: 0 }, { stations, grid });
    expect(climate).toMatchObject({ ok: false, reason: "NO_CLIMATE_HERE" });
  });

  it("finds Fiji's stations from the other side of the antimeridian", () => {
    const nearest = nearestStation({ latitude: -16.8, longitude: -179.9 }, stations);
    expect(nearest?.station.country).toBe("Fiji");
  });

  it("agrees with the grid's main letter at most stations (other period, other definitions)", () => {
    const compared = stations.flatMap((station) => {
      const byStation = siteClimate(station, { stations: [station], grid });
      const byGrid = siteClimate(station, { stations: [], grid });
      return byStation.ok && byGrid.ok ? [byStation.koppenClass[0] === byGrid.koppenClass[0]] : [];
    });
    expect(compared.length).toBeGreaterThan(4000);
    expect(compared.filter(Boolean).length / compared.length).toBeGreaterThan(0.8);
  });
});
