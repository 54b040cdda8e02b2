/** Words of recording what grew that the page needs at once; what is asked of the opened box comes after it. */
export const recordingMessages = {
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
    coming: "The questions of the opened box are on their way. Without signal they come once there is some.",
    toFinish: "Leave the rest open and look it over",

    caution: [
      "Outdoors, FFP2 or N95 mask and gloves on, the box away from your face. Never sniff on purpose.",
      "Children and pets away. Stay out of it with asthma or a weakened immune system.",
      "What grows in a box is never for eating. Local rules and qualified advice come first.",
    ],
    warmthHint:
      "Lay a gloved hand on it before you open it. If it is open already, it can’t be told any more.",

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
