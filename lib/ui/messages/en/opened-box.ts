/** Words of what is asked of the opened box, and of the overview of all answers. */
export const openedMessages = {
  openHow: "Turn your face away and let the wind come from behind you. Lift the cover slowly.",
  openedAt: "Opened",
  openedAtHint: "Now, unless you change it. Leave it empty if you don’t know.",
  openedKnown: "When it was opened is on record.",
  pictures: "Pictures, if you like",
  picturesHint:
    "From straight above, before you touch the grain. Only the box’s grower and whoever leads the trial see them, without where they were taken.",

  warmth: "Warmth",
  cover: "White or grey growth",
  colours: "Other colours",
  depth: "How far it reaches",
  wetness: "Wetness",
  usable: "Usable part",
  total: "Whole content",

  coverPercent: "Your estimate, if you have one",
  coverPercentHint: "A number decides over the picture.",
  percentUnit: "per cent",
  percentOf: (percent: number) => `${percent} %`,
  coloursHint: "White and grey are wanted; other colours are cut out or the box is thrown away.",
  noOther: "No other colour",
  someOther: "Yes, some",
  whichColours: "Which do you see?",
  whichColoursHint: "Tick each one. A colour you don’t tick counts as not there.",
  howMuchOf: (colour: string) => `How much of the grain is ${colour}`,
  weightsHint:
    "Only if you have scales. Weigh everything first, cut out other colours, then weigh what is left.",
  grams: "g",
  gramsOf: (grams: number) => `${grams} g`,
  thrownAway: (grams: number) => `Thrown away: ${Math.round(grams * 10) / 10} g`,

  change: "Change",
  changeLabel: (question: string) => `Change: ${question}`,
  note: "In your own words, if you like",
  noteHint: "Only the box’s grower and whoever leads the trial see this. It enters no result.",
  unanswered: "No answer",
  /** In the place of that, beside a number. */
  answered: "As typed",
} as const;
