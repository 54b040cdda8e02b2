import { describe, expect, it } from "vitest";
import { siteSchema } from "@/shared/schemas/site";

const site = {
  // The example of UUID version 7 in RFC 9562, appendix A.6.
  id: "017f22e2-79b0-7cc3-98c4-dc0c0c07398f",
  name: "Behind the mill",
  latitude: 43.2,
  longitude: -4.6,
  elevationM: 310,
};
const twelve = (value: number) => Array.from({ length: 12 }, () => value);
const messages = (change: Record<string, unknown>) =>
  siteSchema.safeParse({ ...site, ...change }).error?.issues.map(({ message }) => message);

describe("siteSchema", () => {
  it("accepts a site, with or without its own normals, and trims the name", () => {
    expect(siteSchema.parse(site)).toEqual(site);
    expect(siteSchema.parse({ ...site, name: "  Mill " }).name).toBe("Mill");
    const ownNormals = { monthlyMeanC: twelve(11.4), monthlyRainMm: twelve(0) };
    expect(siteSchema.parse({ ...site, ownNormals })).toEqual({ ...site, ownNormals });
  });

  it("accepts every tenth of a degree, however it was computed", () => {
    for (let tenths = -1800; tenths <= 1800; tenths++) {
      for (const longitude of [tenths / 10, tenths * 0.1]) expect(messages({ longitude })).toBeUndefined();
    }
  });

  it.each([
    [{ latitude: 43.25 }, "site.latitude.tooFine"],
    [{ longitude: -4.6001 }, "site.longitude.tooFine"],
    [{ latitude: 90.1 }, "site.latitude.range"],
    [{ longitude: -180.1 }, "site.longitude.range"],
    [{ latitude: "43.2" }, "site.latitude.number"],
    [{ latitude: Number.NaN }, "site.latitude.number"],
    [{ longitude: undefined }, "site.longitude.number"],
    [{ elevationM: 310.5 }, "site.elevation.whole"],
    [{ elevationM: -431 }, "site.elevation.range"],
    [{ elevationM: 6001 }, "site.elevation.range"],
    [{ name: "   " }, "site.name.empty"],
    [{ name: "x".repeat(81) }, "site.name.long"],
    [{ name: 7 }, "site.name.text"],
    [{ name: "mill\0" }, "site.name.text"],
    [{ note: "under the \0 beech" }, "note.text"],
    [{ id: "9b2c8e0a-1f4d-4c3b-8a6e-2d7f5b9c1e30" }, "id.uuidV7"],
    [{ pin: [43.2134, -4.6123] }, "site.fields"],
    [{ ownNormals: { monthlyMeanC: twelve(10) } }, "site.rain.list"],
    [{ ownNormals: { monthlyMeanC: twelve(10), monthlyRainMm: [1, 2, 3] } }, "site.rain.twelve"],
    [
      { ownNormals: { monthlyMeanC: twelve(10), monthlyRainMm: [-1, ...twelve(1).slice(1)] } },
      "site.rain.range",
    ],
    [
      { ownNormals: { monthlyMeanC: [null, ...twelve(9).slice(1)], monthlyRainMm: twelve(9) } },
      "site.temperature.number",
    ],
  ])("refuses %j with a message code", (change, code) => expect(messages(change)).toEqual([code]));

  it("takes the lowest and the highest land", () => {
    expect(messages({ elevationM: -430 })).toBeUndefined();
    expect(messages({ elevationM: 6000 })).toBeUndefined();
  });
});
