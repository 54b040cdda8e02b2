import type { CookingDifference, NotCookedReason, NotRecordableReason } from "@/shared/vocabulary/box";

const boxes = (n: number) => (n === 1 ? "box" : `${n} boxes`);
const noAnswer = "No answer yet";
const differs = {
  "other-grain": "other grain",
  "more-water": "more water",
  "less-water": "less water",
  longer: "cooked longer",
  shorter: "cooked for less time",
  burnt: "burnt",
  "mixed-up": "boxes mixed up",
  other: "something else",
} satisfies Readonly<Record<CookingDifference, string>>;
const notCookedReasons = {
  "box-short": "one box too few",
  "grain-missing": "no grain left",
  spoilt: "it spoilt",
  other: "something else",
} satisfies Readonly<Record<NotCookedReason, string>>;
const notRecordableReasons = {
  "not-cooked": "it was never filled",
  unidentified: "nobody can tell which box it is",
  "box-gone": "the box is gone",
  "content-gone": "the grain is gone",
  other: "something else",
} satisfies Readonly<Record<NotRecordableReason, string>>;

/** Words of the steps of a set of boxes, from cooking to recording, and of what happens on the way. */
export const stepMessages = {
  listTitle: "How far this set is",
  stepDone: "done",
  stepNow: "now",
  names: { cook: "Cook", "set-out": "Set out", fetch: "Fetch", record: "Record" },
  codes: (codes: readonly string[]) => codes.join(", "),

  when: "When",
  whenHint: "Leave it empty for now.",
  otherTime: "At another time",
  theseBoxes: "These boxes",
  note: "In your own words, if you like",
  noteHint: "The trial’s lead may read this. It enters no result.",
  saved: "Saved.",
  sending: "Sending …",

  cook: {
    title: "Cook what chance picked",
    lead: "Weigh grain and water for each box as the list says. When all is cooked, say so here.",
    all: (n: number) => (n === 1 ? "It is cooked as picked" : `All ${n} are cooked as picked`),
    exceptions: "Something was different",
    exceptionsLead:
      "Say it box by box; what you leave as it is counts as cooked as picked. A box that was cooked otherwise stays in the trial.",
    choices: {
      "cooked-as-drawn": "as picked",
      "cooked-otherwise": "otherwise",
      "not-cooked": "not at all",
      later: "not yet",
    },
    differsTitle: "What was different?",
    differs,
    grain: "Which grain instead",
    grainUnknown: "Not known",
    minutes: "How many minutes",
    minutesUnit: "min",
    whyNot: "Why not?",
    whyNotChoices: {
      "": noAnswer,
      "grain-missing": notCookedReasons["grain-missing"],
      spoilt: notCookedReasons.spoilt,
      other: notCookedReasons.other,
    },
    save: "Save",
  },

  setOut: {
    title: "Set the boxes out",
    lead: "Level ground in the shade, on the litter, with the cover clear of the grain. Tell it here while you stand there.",
    least: (cm: number) => `This trial wants them at least ${cm} cm apart.`,
    start: (n: number) => (n === 1 ? "I have set it out" : `I have set out ${boxes(n)}`),
    sunk: "How deep they are sunk",
    sunkHint:
      "From the ground to the bottom of the box; 0 on top of the litter. Leave it empty if you didn’t measure.",
    spacing: "How far apart",
    spacingHint: "Between neighbours. Leave it empty if you didn’t measure.",
    cm: "cm",
    pictures: "A picture of where they stand",
    picturesHint: "Helps you find them again. Nobody on it, please.",
    save: "They are out",
  },

  pin: {
    title: "The exact spot",
    lead: "Only you will ever see it. It helps you find the boxes again.",
    ask: "Are you standing there now?",
    yes: "Yes, take the spot",
    no: "No, I’ll type it",
    taking: "Looking for satellites …",
    taken: (metres: number | null) =>
      metres === null ? "The spot is taken." : `The spot is taken, to about ${metres} m.`,
    failed:
      "This phone doesn’t tell where it is. Go where the sky is open and try again, or type the numbers.",
    drop: "Leave it out",
    latitude: "Latitude",
    latitudeHint: "Such as 43.36214. South is negative.",
    longitude: "Longitude",
    longitudeHint: "Such as −5.84532. West is negative.",
    degrees: "degrees",
    none: "No spot is kept of this set.",
    keep: "Keep the spot",
    change: "Take or type the spot anew",
    erase: "Erase it",
    value: (latitude: string, longitude: string) => `${latitude}, ${longitude}`,
    sources: { phone: "taken by a phone", typed: "typed" },
    position: "Spot",
    takenAt: "Taken",
  },

  fetch: {
    title: "Fetch the boxes",
    wait: "Leave them until then. What happens to them meanwhile can be told below.",
    lead: "Bring them back closed. Mask and gloves on; nobody opens a box on the way.",
    all: (n: number) => (n === 1 ? "I have fetched it" : `I have fetched all ${n}`),
    some: (n: number) => (n === 1 ? "I have fetched this one" : `I have fetched these ${n}`),
    happened: "Did anything happen to them out there?",
    happenings: { nothing: "Nothing", something: "Something did" },
    something: "Save this first; then tap the box below that it happened to, and say what.",
    more: "Only some, or at another time",
  },

  record: {
    title: "Open and record",
    lead: "Outdoors, mask and gloves on, the box away from your face. One box after the other.",
    button: (code: string) => `Open and record ${code}`,
    others: "Then",
    openedBefore: "Opened, but recorded later",
    openedBeforeLead: "Say when you lifted the covers; readiness is counted to that hour.",
    opened: (n: number) => (n === 1 ? "I have opened it" : `I have opened these ${n}`),
  },

  done: {
    title: "All recorded",
    lead: "There is nothing more to do for this set. A record that is wrong can be corrected.",
  },
  alsoOut: (codes: string) => `Still out, waiting for nothing but you: ${codes}.`,
  alsoWaiting: {
    cook: (codes: string) =>
      `Not cooked yet, as far as is known: ${codes}. Tap the box and say what became of it.`,
    "set-out": (codes: string) =>
      `Not set out yet, as far as is known: ${codes}. Tap the box and say what became of it.`,
  },

  box: {
    mapTitle: "The boxes as they stand",
    mapLead: "In the order of their numbers. Tap one to say what happened to it.",
    states: {
      cook: "not cooked yet",
      "set-out": "cooked",
      fetch: "out",
      record: "to be recorded",
      none: "nothing to record",
      recorded: "recorded",
    },
    onRecord: "On record",
    nothingOnRecord: "Nothing on record yet.",
    takeBack: "Take back",
    takeBackLabel: (event: string) => `Take back: ${event}`,
    record: "Record growth",
    recordOf: (code: string) => `Record growth of ${code}`,
    correct: "Correct the record",
    cooked: "How it was cooked",
    recipeHidden: "Its recipe is shown again once it is recorded.",
    growth: (name: string, range: string) => `Growth: ${name} (${range})`,
    growthUnknown: "Recorded, growth not known",
    clean: "clean",
    notClean: "not clean",
    differs: (list: readonly (keyof typeof differs)[]) => list.map((each) => differs[each]).join(", "),
    cookMinutes: (minutes: number) => `${minutes} min`,
    notCooked: (reason: keyof typeof notCookedReasons) => notCookedReasons[reason],
    notRecordable: (reason: keyof typeof notRecordableReasons) => notRecordableReasons[reason],
    known: (isKnown: boolean) => (isKnown ? "known by its place" : "can’t be told apart any more"),
  },

  happened: {
    title: "Something happened to it",
    lead: "Tick all that holds. Each is kept with its time.",
    what: "What happened?",
    whatMissing: "Tick what happened, or answer whether growth can still be recorded.",
    labelTitle: "Can you tell by its place which box it is?",
    labelHint: (position: number, of: number) =>
      `Look at the boxes as they stand: this one is number ${position} of ${of}.`,
    labelKnown: "Yes, by its place",
    labelUnsure: "I’m not sure",
    labelUnsureNote:
      "Then it stays unidentified: its growth can’t be recorded, so that no recipe gets another’s result.",
    labelMissing: "Say whether you can tell which box it is.",
    recordable: "Can you still record growth?",
    recordableChoices: {
      "": noAnswer,
      "growth-recordable": "Yes",
      "growth-not-recordable": "No",
    },
    why: "Why not?",
    whyChoices: {
      "": noAnswer,
      "box-gone": notRecordableReasons["box-gone"],
      "content-gone": notRecordableReasons["content-gone"],
      other: notRecordableReasons.other,
    },
    stageTitle: "Its steps, one by one",
    stageLead: "For this box only, when it differs from the others.",
    save: "Save",
  },
} as const;
