import { z } from "zod";
import { PERMISSIONS } from "@/shared/vocabulary/place";
import { noteSchema } from "./box-event";
import { uuidV7 } from "./id";
import { siteTraitsSchema } from "./site-traits";
import { keepableText } from "./text";

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

const whereabouts = {
  latitude: coordinate("latitude", 90),
  longitude: coordinate("longitude", 180),
  elevationM: z
    .int({ error: "site.elevation.whole" })
    .min(SITE_ELEVATION_M.min, { error: "site.elevation.range" })
    .max(SITE_ELEVATION_M.max, { error: "site.elevation.range" }),
  ownNormals: ownNormalsSchema.optional(),
};

/** Where a place is, and its climate where its owner knows better than the nearest station. */
export type Whereabouts = z.infer<z.ZodObject<typeof whereabouts>>;

const details = {
  name: keepableText("site.name.text")
    .trim()
    .min(1, { error: "site.name.empty" })
    .max(80, { error: "site.name.long" }),
  /** Left out: nothing said of it; what was said before stands. */
  traits: siteTraitsSchema.optional(),
  permission: z.enum(PERMISSIONS, { error: "site.permission.unknown" }).optional(),
  note: noteSchema.optional(),
};

/**
 * A site as a grower registers it from a phone. Latitude and longitude in degrees to 0.1°; finer values are
 * refused, not rounded, because an exact pin belongs elsewhere. Every message is a key of the message catalogue.
 */
export const siteSchema = z.strictObject(
  { id: uuidV7, ...details, ...whereabouts },
  { error: "site.fields" },
);

export type SiteInput = z.infer<typeof siteSchema>;

/** A change of a place, made from the version that was shown. Its whereabouts change only while no set of boxes has been planned there. */
export const siteChangeSchema = z.strictObject(
  {
    id: uuidV7,
    siteId: uuidV7,
    basedOn: z.int({ error: "site.fields" }).min(1, { error: "site.fields" }),
    ...details,
    whereabouts: z.strictObject(whereabouts, { error: "site.fields" }).optional(),
  },
  { error: "site.fields" },
);

export type SiteChange = z.infer<typeof siteChangeSchema>;
