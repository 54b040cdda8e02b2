import { z } from "zod";
import { isKoppenClass, type KoppenClass } from "../vocabulary/climate";
import { climateGroupingSchema } from "./climate-grouping";
import { BOXES_PER_OUTING } from "./draw";
import { isWholeTenth } from "./site";
import { keepableText } from "./text";

// Every message is a key of the lead's message catalogue.

/** Seats one region may have. */
export const SEATS_PER_REGION = { min: 1, max: 1000 } as const;

const whole = (min: number, max: number, error: string) =>
  z.int({ error }).min(min, { error }).max(max, { error });

/** Seats of one region. */
export const seatsSchema = whole(SEATS_PER_REGION.min, SEATS_PER_REGION.max, "seats.range");
const boxes = whole(BOXES_PER_OUTING.min, BOXES_PER_OUTING.max, "boxes.range");

/** Degrees to 0.1°: regions are no closer than places. */
const tenth = (limit: number) =>
  z
    .number({ error: "region.extent" })
    .min(-limit, { error: "region.extent" })
    .max(limit, { error: "region.extent" })
    .refine(isWholeTenth, { error: "region.tenth" });

const newRegionSchema = z
  .strictObject({
    name: keepableText("region.name")
      .trim()
      .min(1, { error: "region.name" })
      .max(60, { error: "region.name" }),
    south: tenth(90),
    west: tenth(180),
    north: tenth(90),
    east: tenth(180),
    capacity: seatsSchema,
  })
  .refine(({ south, north }) => south < north, { path: ["north"], error: "region.order" })
  .refine(({ west, east }) => west < east, { path: ["east"], error: "region.order" });

/** A trial before it opens. Its recipes are added one by one afterwards. */
export const trialDraftSchema = z
  .strictObject({
    title: keepableText("title.length")
      .trim()
      .min(3, { error: "title.length" })
      .max(80, { error: "title.length" }),
    question: keepableText("question.length")
      .trim()
      .min(1, { error: "question.length" })
      .max(300, { error: "question.length" }),
    boxesMin: boxes,
    boxesMax: boxes,
    /** The last day, `YYYY-MM-DD`. */
    endsOn: z.iso.date({ error: "endsOn.form" }),
    grouping: climateGroupingSchema,
    regions: z.array(z.strictObject({ regionId: z.uuid(), capacity: seatsSchema })),
    newRegion: newRegionSchema.nullable(),
  })
  .refine(({ boxesMin, boxesMax }) => boxesMin <= boxesMax, { path: ["boxesMax"], error: "boxes.order" })
  .refine(({ regions, newRegion }) => regions.length > 0 || newRegion !== null, {
    path: ["regions"],
    error: "regions.none",
  });

export type TrialDraftInput = z.infer<typeof trialDraftSchema>;

/** Climate groups as typed: one a line, its short name, a colon, its classes: `dry: BSk, BSh`. */
export function parseGroupingLines(text: string): { code: string; classes: string[] }[] {
  return text
    .split("\n")
    .filter((line) => line.trim() !== "")
    .map((line) => {
      const [code = "", classes = ""] = line.split(":");
      return { code: code.trim(), classes: classes.split(/[\s,;]+/).filter(Boolean) };
    });
}

/** The same the other way round. */
export function groupingLines(
  grouping: readonly { readonly code: string; readonly classes: readonly KoppenClass[] }[],
): string {
  return grouping
    .map(({ code, classes }) => `${code}: ${classes.filter(isKoppenClass).join(", ")}`)
    .join("\n");
}
