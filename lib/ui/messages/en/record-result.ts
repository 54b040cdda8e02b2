/** Words of what a record gives and of its versions; apart, as only the server says them. */
export const resultMessages = {
  summaryTitle: "What this gives",
  growth: "Growth",
  growthUnknown: {
    NOT_MEASURED: "not known: not measured",
    CANT_TELL: "not known: could not be told",
    NOT_ANSWERED: "not known: no answer",
  },
  growthFromPercent: "by your number",
  growthFromClass: "by the picture",
  classDiffers: "Your number and your picture stand for different classes; the number decides.",
  cleanTake: "Good and clean",
  cleanYes: "Yes",
  cleanNo: "No",
  cleanUnknown: "Not known",
  cleanReasons: {
    CLEAN: "at least 30 % growth and at most 10 % other colours",
    TAKE_BELOW_3: "less than 30 % growth",
    OFF_COLOUR_OVER_10_PERCENT: "more than 10 % other colours",
    TAKE_UNKNOWN: "growth is not known",
    OFF_COLOUR_UNKNOWN: "other colours are not all known",
  },
  recipeWas: "It was cooked as",
  nextBox: "Next box",
  toSet: "Back to the set",

  historyTitle: "Versions of this record",
  version: (revision: number) => `Version ${revision}`,
  stands: "stands",
  changed: (was: string, is: string) => `${is} (before: ${was})`,
  /** `reason` empty: it went with the account of whoever gave it. */
  noteHidden: (text: string, reason: string) =>
    `${text} (hidden from everyone but you${reason ? `: ${reason}` : ", by somebody who has left"})`,
} as const;
