import { z } from "zod";
import { uuidV7 } from "./id";

/** Lowest and highest land a site may lie on, m: the shore of the Dead Sea and above the highest villages. */
export const SITE_ELEVATION_M = { min: -430, max: 6000 } as const;

/** Whether degrees are given to 0.1° and no finer: about 10 km, so that no pin can be given by mistake. */
export function isWholeTenth(degrees: number): boolean {
  return Math.abs(degrees * 10 - Math.round(degrees * 10)) < 1e-9;
}

function coordinate(name: "latitude" | "longitude", limit: 90 | 180) {
  return z
    .number({ error: `site.${name}.number` })
    .min(-limit, { error: `site.${name}.range` })
    .max(limit, { error: `site.${name}.range` })
    .refine(isWholeTenth, { error: `site.${name}.tooFine` });
}

const monthly = (name: "temperature" | "rain", min: number, max: number) =>
  z
    .array(
      z
        .number({ error: `site.${name}.number` })
        .min(min, { error: `site.${name}.range` })
        .max(max, { error: `site.${name}.range` }),
      { error: `site.${name}.list` },
    )
    .length(12, { error: `site.${name}.twelve` });

/** A place's own 12 monthly mean temperatures (°C) and 12 monthly precipitation sums (mm), January first. */
export const ownNormalsSchema = z.strictObject(
  { monthlyMeanC: monthly("temperature", -70, 50), monthlyRainMm: monthly("rain", 0, 3000) },
  { error: "site.normals.fields" },
);

/**
 * A site as a grower registers it from a phone. Latitude and longitude in degrees to 0.1°; finer values are
 * refused, not rounded, because an exact pin belongs elsewhere. Every message is a key of the message catalogue.
 */
export const siteSchema = z.strictObject(
  {
    id: uuidV7,
    name: z
      .string({ error: "site.name.text" })
      .trim()
      .min(1, { error: "site.name.empty" })
      .max(80, { error: "site.name.long" }),
    latitude: coordinate("latitude", 90),
    longitude: coordinate("longitude", 180),
    elevationM: z
      .int({ error: "site.elevation.whole" })
      .min(SITE_ELEVATION_M.min, { error: "site.elevation.range" })
      .max(SITE_ELEVATION_M.max, { error: "site.elevation.range" }),
    ownNormals: ownNormalsSchema.optional(),
  },
  { error: "site.fields" },
);

export type SiteInput = z.infer<typeof siteSchema>;
