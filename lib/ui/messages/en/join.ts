const households = (n: number) => (n === 1 ? "1 household waits" : `${n} households wait`);

/** Words of the pages on which a household joins a trial, waits for a seat in it, or leaves it. */
export const joinMessages = {
  title: (trial: string) => `Join: ${trial}`,
  metaTitle: "Join a trial",
  joinWith: "Join with a code",
  joinWithLead: "Whoever runs the trial gives you its code.",
  code: "Code",
  codeMissing: "Type the code.",
  codeUnknown: "No trial has this code. Compare it with what you were given, sign by sign.",
  go: "Look it up",

  asksTitle: "What it asks",
  asks: (boxes: string) => [
    `Set out sets of ${boxes} boxes with cooked grain, one set or more. Chance picks the recipe of each box, and you cook what was picked.`,
    "Keep to it: a set in which you swap recipes can’t answer anything.",
    "Say what happened to every box, also to those that were lost, cooked otherwise or not cooked at all.",
    "A place in one of the trial’s regions where you may set out boxes. To join, its spot to a tenth of a degree and its height are enough.",
    "A household has one seat and counts as one, whoever in it sets out boxes.",
  ],
  timeTitle: "How long it takes",
  time: [
    "For a set of four boxes, by our guess: an hour or two of cooking, an hour in the woods, and some days later five minutes a box to record what grew.",
    "Boxes stay out about 4 to 5 days near 20\u00a0°C, longer where it is cooler (University of Hawaiʻi CTAHR, BIO-9).",
  ],
  until: (day: string) => `The trial runs until ${day}.`,
  getTitle: "What you get",
  get: [
    "Cooking amounts, labels and a field sheet for each set, and when to look at your boxes.",
    "Your own boxes beside everyone’s, once results come out and none of yours is pending.",
    "An answer for your climate group that no single grower could have found, and its raw records to take along.",
  ],
  dangerTitle: "Before you join",
  danger: {
    health:
      "Don’t take part if you have asthma or a weakened immune system, and don’t do it for someone in your home who has. If you are unsure, ask your doctor first.",
    spores:
      "What grows may be mould, and mould makes spores. Open boxes outdoors, away from your face, with an FFP2 or N95 mask and gloves. Never sniff on purpose.",
    others: "Keep children and pets away from boxes and cooked grain that stands about.",
    land: "Ask whoever owns the land, keep to local rules, and look out for ticks.",
    borders: "Don’t move grown material between regions or countries.",
    deference: "Local rules and qualified advice come before anything said here.",
  },
  sharedTitle: "What is shared",
  shared: [
    "Your region and your climate group, the recipes of your boxes and what you record of them, under a made-up name of this trial.",
    "That a draw was made, in a public list anyone can check, under the same made-up name.",
    "What you write in your own words about a box and pictures you take of it, with the trial’s lead only; words about the cooking once the trial has closed.",
    "After the trial closes its lead may release the records for anyone to read: no place, no day, no code of your labels, no own words, no pictures.",
    "They stay after you leave the trial or delete your account, because others rely on them.",
  ],
  privateTitle: "What stays with you",
  private: [
    "Your name and mail address, and what you call your places or write about them.",
    "Where your boxes stand. To join we ask for a spot only to a tenth of a degree, about 10\u00a0km, and nobody else sees even that.",
  ],
  agree: "I have read this, none of the reasons to stay out holds for me, and I agree to what is shared.",
  agreeNeeded: "Read the page and tick this box first.",
  region: "Region",
  seatsLeft: (left: number) => (left === 1 ? "1 seat left" : `${left} seats left`),
  full: (waiting: number) =>
    waiting === 0 ? "no seat left; you can wait" : `no seat left; ${households(waiting)}`,
  button: "Join this trial",
  waitButton: "Wait for a seat",
  waitLead:
    "This region has no seat left. You can wait: whoever has waited longest gets the seat that comes free, and a mail tells you. What you agree to here holds from then on.",
  signInFirst: "To join you need an account.",
  signIn: "Sign in or make an account",
  closed: "This trial has closed. Its page says what came of it.",
  toTrial: "To the trial’s page",
  member: "You take part in this trial.",
  householdHasSeat:
    "Your household has its seat in this trial. Agree for yourself and you can set out boxes too.",
  plan: "Plan a set of boxes",
  addPlace: "Add a place first",

  waiting: (region: string, place: number) =>
    place === 1
      ? `Your household is first in line for a seat in ${region}.`
      : `Your household waits for a seat in ${region}: place ${place} in line.`,
  waitingLead: "When a seat is yours you get a mail. Nobody can overtake you.",
  stepBack: "Stop waiting",

  leftNow: "Your household left this trial.",
  leftKept: "Your household’s seat is kept, as it has boxes in it: you can come back to it.",
  comeBack: "Take part again",
  leaveTitle: "Leave this trial",
  leaveLead: {
    seatFreed: "Your household’s seat goes to whoever waits for one. Sets you have planned are given up.",
    seatKept:
      "You get no further recipes. Boxes you have set out can still be recorded, and what was recorded stays, as you were told at joining. The seat is kept for you, so you can come back.",
  },
  leaveConfirm: "My household leaves this trial",
  leave: "Leave",
  outcomes: {
    NOT_FOUND: "Your household has no seat or place in line here. Load the page again.",
    TRIAL_NOT_OPEN: "This trial has closed; there is nothing to leave any more.",
    INVALID: "Your household is still in the trial.",
    CONFIRM: "Tick the box first.",
  } as Readonly<Record<string, string>>,
} as const;
