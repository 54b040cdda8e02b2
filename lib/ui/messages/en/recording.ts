/** Words of recording what grew, of its pictures, and of what waits on the phone. */
export const recordingMessages = {
  noSignal: {
    title: "Nothing came back.",
    detail:
      "It may or may not have been saved. What you typed is still on this phone: send it again, it won’t be doubled.",
  },

  draft: {
    "on-phone": "On this phone, not sent yet.",
    "page-only": "This phone keeps nothing by itself: leave this page open until it is sent.",
  },

  record: {
    title: (code: string) => `Record ${code}`,
    step: (n: number, of: number) => `Step ${n} of ${of}`,
    back: "Back",
    sending: "Sending …",
    signIn: "Sign in again",
    sent: "Sent.",
    sentLate: "Sent. The trial has closed, so its results don’t rest on it, but it is kept.",
    standing: (revision: number) =>
      `There is a record of this box (version ${revision}). What you save now is a correction; the earlier one is kept.`,

    question: {
      before: "Before you touch the box",
      warmth: "How warm is the closed box?",
      open: "Now open it, outdoors",
      cover: "How much of the grain is under white or grey growth?",
      colours: "Is there any other colour than white and grey?",
      depth: "How far does the growth reach?",
      wetness: "How wet is the grain?",
      weights: "How much of it can be used?",
      finish: "What you answered",
    },
    next: {
      before: "Next: warmth, still closed",
      warmth: "Next: open it",
      open: "Next: growth",
      cover: "Next: other colours",
      colours: "Next: how deep",
      depth: "Next: how wet",
      wetness: "Next: weights",
      weights: "Next: look it over",
      finish: "Save the record",
    },
    saveCorrection: "Save the correction",
    toFinish: "Leave the rest open and look it over",

    caution: [
      "Outdoors, FFP2 or N95 mask and gloves on, the box away from your face. Never sniff on purpose.",
      "Children and pets away. Stay out of it with asthma or a weakened immune system.",
      "What grows in a box is never for eating. Local rules and qualified advice come first.",
    ],
    warmthHint:
      "Lay a gloved hand on it before you open it. If it is open already, it can’t be told any more.",
    openHow: "Turn your face away and let the wind come from behind you. Lift the cover slowly.",
    openedAt: "Opened",
    openedAtHint: "Now, unless you change it. Leave it empty if you don’t know.",
    openedKnown: "When it was opened is on record.",
    pictures: "Pictures, if you like",
    noPictures: "Pictures need signal when the page opens. Load it again where there is some.",
    picturesHint:
      "From straight above, before you touch the grain. You and whoever leads the trial see them, without where they were taken.",

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
    noteHint: "You and whoever leads the trial see this. It enters no result.",
    unanswered: "No answer",

    stale: "This box was recorded meanwhile, perhaps on another phone. What you typed here is kept.",
    staleStands: (standing: string) => `Recorded: ${standing}.`,
    keepMine: "Make mine a correction",
    takeStanding: "Drop mine",
  },
} as const;

/** What is wrong with a number of the record step, by the code its schema gives. */
export const measureFaults: Readonly<Record<string, string>> = {
  "grade.percent.number": "Type a number of per cent.",
  "grade.percent.range": "Per cents run from 0 to 100.",
  "grade.grams.number": "Type a number of grams.",
  "grade.grams.range": "From 0 to 50,000 g.",
  "grade.usableMass.overTotal": "The usable part can’t weigh more than the whole.",
};
