import { z } from "zod";
import { uuidV7 } from "./id";

/** °C in the shade, to a tenth. */
const temperatureC = z
  .number({ error: "weather.temperature.number" })
  .min(-60, { error: "weather.temperature.range" })
  .max(60, { error: "weather.temperature.range" })
  .multipleOf(0.1, { error: "weather.temperature.tooFine" })
  .nullable();

const weatherDaySchema = z
  .strictObject(
    {
      day: z.iso.date({ error: "weather.fields" }),
      minC: temperatureC,
      maxC: temperatureC,
      rainMm: z
        .number({ error: "weather.rain.number" })
        .min(0, { error: "weather.rain.range" })
        .max(2000, { error: "weather.rain.range" })
        .multipleOf(0.1, { error: "weather.rain.tooFine" })
        .nullable(),
    },
    { error: "weather.fields" },
  )
  .refine(({ minC, maxC }) => minC === null || maxC === null || minC <= maxC, {
    path: ["maxC"],
    error: "weather.temperature.order",
  });

/** The weather a set of boxes stood in, day by day as its grower read it; it takes the place of what was told before. */
export const weatherSchema = z.strictObject(
  {
    id: uuidV7,
    outingId: uuidV7,
    days: z
      .array(weatherDaySchema, { error: "weather.fields" })
      .max(31, { error: "weather.fields" })
      .refine((days) => new Set(days.map(({ day }) => day)).size === days.length, {
        error: "weather.fields",
      }),
  },
  { error: "weather.fields" },
);
export type WeatherInput = Readonly<z.infer<typeof weatherSchema>>;
export type WeatherDay = Readonly<z.infer<typeof weatherDaySchema>>;
