import { describe, expect, it } from "vitest";
import {
  type ClimateStation,
  greatCircleKm,
  nearestStation,
  normalsAtElevation,
} from "@/lib/engine/climate/nearest";
import { months, seededUniform } from "./helpers";

const station = (name: string, latitude: number, longitude: number, elevationM = 0): ClimateStation => ({
  name,
  country: "Nowhere",
  latitude,
  longitude,
  elevationM,
  monthlyMeanC: months(10),
  monthlyRainMm: months(80),
});

describe("greatCircleKm", () => {
  it("is a quarter and a half of the circumference, 2π · 6371.0088 km", () => {
    const quarter = (Math.PI * 6371.0088) / 2;
    expect(greatCircleKm({ latitude: 0, longitude: 0 }, { latitude: 90, longitude: 33 })).toBeCloseTo(
      quarter,
      6,
    );
    expect(greatCircleKm({ latitude: 0, longitude: -90 }, { latitude: 0, longitude: 90 })).toBeCloseTo(
      2 * quarter,
      6,
    );
    expect(greatCircleKm({ latitude: 45, longitude: 10 }, { latitude: -45, longitude: -170 })).toBeCloseTo(
      2 * quarter,
      3,
    );
  });

  it("gives about 505 km from Madrid to Barcelona (from memory)", () => {
    const km = greatCircleKm({ latitude: 40.417, longitude: -3.704 }, { latitude: 41.388, longitude: 2.17 });
    expect(km).toBeGreaterThan(500);
    expect(km).toBeLessThan(510);
  });

  it("agrees with the spherical law of cosines and is symmetric", () => {
    const uniform = seededUniform(6371);
    const rad = Math.PI / 180;
    for (let i = 0; i < 500; i++) {
      const a = { latitude: 180 * uniform() - 90, longitude: 360 * uniform() - 180 };
      const b = { latitude: 180 * uniform() - 90, longitude: 360 * uniform() - 180 };
      const cosine =
        Math.sin(a.latitude * rad) * Math.sin(b.latitude * rad) +
        Math.cos(a.latitude * rad) * Math.cos(b.latitude * rad) * Math.cos((a.longitude - b.longitude) * rad);
      expect(greatCircleKm(a, b)).toBeCloseTo(6371.0088 * Math.acos(cosine), 3);
      expect(greatCircleKm(b, a)).toBeCloseTo(greatCircleKm(a, b), 9);
    }
  });
});

describe("nearestStation", () => {
  it("looks across the antimeridian", () => {
    const stations = [station("west of it", -17, 170), station("east of it", -17, -179.5)];
    const nearest = nearestStation({ latitude: -17, longitude: 179.5 }, stations);
    expect(nearest?.station.name).toBe("east of it");
    expect(nearest?.distanceKm).toBeCloseTo(106.33, 1); // 1° of longitude: 111.195 km × cos 17°
  });

  it("counts degrees of longitude for what they are worth near the pole", () => {
    const stations = [station("two degrees south", 86, 0), station("the other side", 89.5, 180)];
    expect(nearestStation({ latitude: 88.5, longitude: 0 }, stations)?.station.name).toBe("the other side");
  });

  it("takes the first of equals, and null of none", () => {
    const stations = [station("first", 1, 0), station("second", -1, 0)];
    expect(nearestStation({ latitude: 0, longitude: 0 }, stations)?.station.name).toBe("first");
    expect(nearestStation({ latitude: 0, longitude: 0 }, [])).toBeNull();
  });
});

describe("normalsAtElevation", () => {
  it("cools by 6.5 K per km up, warms down, leaves rain alone", () => {
    const at500 = station("middle", 0, 0, 500);
    expect(normalsAtElevation(at500, 1500).monthlyMeanC).toEqual(months(3.5));
    expect(normalsAtElevation(at500, 0).monthlyMeanC).toEqual(months(13.25));
    expect(normalsAtElevation(at500, 1500).monthlyRainMm).toEqual(months(80));
  });
});
