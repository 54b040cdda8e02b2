import { readSeason } from "@/shared/vocabulary/season";

/** Words on seasons and on spots used again, for results pages. */
export const seasonMessages = {
  title: "Seasons, and spots used again",
  lead: "Whether the answer turns with the time of year, over all climate groups.",
  /** "autumn 2026"; a season that reaches into the next year has both. */
  name: (code: string) => {
    const { year, month, name } = readSeason(code);
    const next = String(year + 1).slice(2);
    return month === 12 ? `${name} ${year}/${next}` : `${name} ${year}`;
  },
  basis: {
    unknown: "Whether it holds in another season is not known.",
    one: "This season only: whether it holds in another is not known.",
    two: "Two seasons so far, too few to compare: whether it holds in others is not known.",
    more: (seasons: number) => `Boxes of ${seasons} seasons, compared further down.`,
  },
  notKnown: {
    few: "Whether it holds in other seasons.",
    more: "Whether it holds in years to come.",
  },
  caption: (level: string) => `Mean growth by season of setting out; ${level} intervals`,
  none: (why: string) => `Recipes by season: ${why}.`,
  yes: (p: string) =>
    `Differences between recipes vary over seasons (${p}): what does best in one need not in the next.`,
  no: (p: string) =>
    `No sign that differences between recipes vary over seasons (${p}); small changes may have gone unseen.`,
  test: (df1: string, df2: string, f: string, p: string) =>
    `Recipe × season: F(${df1}, ${df2}) = ${f}, ${p}.`,
  note: "The same model as above with seasons in the place of climate groups. A season is three months, from March, June, September or December, by the day a set was put out and by the region's side of the equator. Sets of two seasons may have stood in other places: compare recipes within a season rather than seasons.",
  season: "Season",
  numbers: "Numbers by season",
  reused: (reused: string, outings: string, share: string) =>
    `Spots used again: ${reused} of ${outings} sets (${share}) stood where a set of this trial had stood on an earlier day. What grew there before may help or hinder; recipes are picked by chance all the same.`,
  reusedNone: "No set stood where one of this trial had stood before.",
  reusedHeld: (why: string) => `How many sets stood where one had stood before: ${why}.`,
} as const;
