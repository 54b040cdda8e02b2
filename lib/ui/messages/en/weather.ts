/** Words of the weather page of a set of boxes. */
export const weatherMessages = {
  title: "Weather your boxes stood in",
  lead: (code: string, days: number) => `Set ${code}: the day it was put out and the ${days - 1} after it.`,
  how: "A min–max thermometer in the shade near the boxes does, read once a day; leave empty what you don't know.",
  use: "With all temperatures the set is told apart by warmth in everyone's results. Nobody else sees the days.",
  minimum: "Lowest",
  maximum: "Highest",
  rain: "Rain",
  celsius: "°C",
  millimetres: "mm",
  save: "Save the weather",
  saved: "Saved.",
  exposure: (meanC: string, degreeDays: string, rainMm: string | null) =>
    `These days had ${meanC} °C on average, ${degreeDays} degree-days above 5 °C${rainMm === null ? "" : ` and ${rainMm} mm of rain`}.`,
  guide: "Boxes are often ready after about 65 degree-days.",
  missing: "Degree-days are worked out once all temperatures are there.",
  neverKnown: "Not all temperatures were noted, so there are no degree-days.",
  toCome: (days: number) =>
    days === 1
      ? "One more day can be noted once it has come."
      : `${days} more days can be noted once they have come.`,
  closed: "This trial has closed, so what its results rest on stays as it is.",
  nothing: "Nothing was noted.",
  back: "Back to the set",
  link: "Weather by hand",
} as const;
