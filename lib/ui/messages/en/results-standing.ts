import type { WarmthClass } from "@/shared/vocabulary/exposure";
import { readSeason } from "@/shared/vocabulary/season";

const WARMTH: Readonly<Record<WarmthClass, string>> = {
  "0-50": "cool days",
  "50-75": "mild days",
  "75-150": "warm days",
};

/** Words on what boxes stood in, for a table of recipes by it. */
export interface StandingWords {
  readonly title: string;
  readonly lead: string;
  readonly name: (code: string) => string;
  readonly caption: (level: string) => string;
  readonly none: (why: string) => string;
  readonly yes: (p: string) => string;
  readonly no: (p: string) => string;
  readonly test: (df1: string, df2: string, f: string, p: string) => string;
  readonly note: string;
  readonly column: string;
  readonly numbers: string;
}

export const seasonMessages = {
  title: "Seasons, and spots used again",
  lead: "Whether the answer turns with the time of year, over all climate groups.",
  /** "autumn 2026"; a season that reaches into the next year has both. */
  name: (code) => {
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
  caption: (level) => `Mean growth by season of setting out; ${level} intervals`,
  none: (why) => `Recipes by season: ${why}.`,
  yes: (p) =>
    `Differences between recipes vary over seasons (${p}): what does best in one need not in the next.`,
  no: (p) =>
    `No sign that differences between recipes vary over seasons (${p}); small changes may have gone unseen.`,
  test: (df1, df2, f, p) => `Recipe × season: F(${df1}, ${df2}) = ${f}, ${p}.`,
  note: "The same model as above with seasons in the place of climate groups. A season is three months, from March, June, September or December, by the day a set was put out and by the region's side of the equator. Sets of two seasons may have stood in other places: compare recipes within a season rather than seasons.",
  column: "Season",
  numbers: "Numbers by season",
  reused: (reused: string, outings: string, share: string) =>
    `Spots used again: ${reused} of ${outings} sets (${share}) stood where a set of this trial had stood on an earlier day. What grew there before may help or hinder; recipes are picked by chance all the same.`,
  reusedNone: "No set stood where one of this trial had stood before.",
  reusedHeld: (why: string) => `How many sets stood where one had stood before: ${why}.`,
} satisfies StandingWords & Record<string, unknown>;

export const warmthMessages: StandingWords = {
  title: "Cool days and warm days",
  lead: "Whether the answer turns with the weather after setting out, of sets whose grower noted it. Seen, not drawn by chance.",
  name: (code) => WARMTH[code as WarmthClass] ?? code,
  caption: (level) => `Mean growth by warmth of the five days from setting out; ${level} intervals`,
  none: (why) => `Recipes by warmth: ${why}.`,
  yes: (p) => `Differences between recipes vary with the warmth of those days (${p}).`,
  no: (p) =>
    `No sign that differences between recipes vary with the warmth of those days (${p}); small changes may have gone unseen.`,
  test: (df1, df2, f, p) => `Recipe × warmth: F(${df1}, ${df2}) = ${f}, ${p}.`,
  note: "Cool days came to under 50 degree-days, as at 15 °C throughout, warm ones to over 75, as at 20 °C: above 5 °C with a cut-off at 35 °C by the single sine, over the five days from setting out, whenever the boxes were fetched. The same model as above with warmth in the place of climate groups, of the sets with all ten temperatures. Nobody knew the weather when recipes were picked by chance, so recipes compare fairly under the same warmth; cool and warm sets differ in much besides.",
  column: "Warmth",
  numbers: "Numbers by warmth",
};
