import type { CorrectionKind } from "@/shared/vocabulary/desk";

const orList = (names: readonly string[]) => new Intl.ListFormat("en-GB").format(names);

/** Words of the page that a grower starts from. */
export const myThingsMessages = {
  title: "My things",
  dueTitle: "Due now",
  nothingDue: "Nothing is due.",
  laterTitle: "Later",
  missingTitle: "Missing",
  allSets: "All my boxes",
  plan: "Plan a set of boxes",
  places: "Your places",
  recipes: "Your recipes",
  jars: "Your jars",

  paused: (trial: string) => `“${trial}” stands still.`,
  waiting: (trial: string, region: string) => `You wait for a seat in “${trial}”, ${region}`,
  waitingLink: "See your place in line",
  noPlace: "You have no place yet.",
  noTrial: "You don’t take part in an open trial.",
  findTrial: "Look for a trial",
  joinWithCode: "I have a code",
  placeFault: (place: string, fault: string) => `\u2068${place}\u2069: ${fault}`,

  requestsTitle: "Asked to look again",
  requestsLead: "Whoever runs the trial wonders about these records. They can’t change them; you can.",
  requestOf: (code: string) => `Box ${code}`,
  requestKinds: {
    grams: "The grams don’t seem to add up.",
    "per-cent": "The picture and the per cent don’t seem to belong together.",
    times: "The times stand in an odd order.",
    "no-record": "The record of growth seems to be missing.",
    other: "Please look at this record again.",
  } satisfies Readonly<Record<CorrectionKind, string>>,
  requestWords: (words: string) => `“${words}”`,
  lookAgain: "Look again",
  stands: "It stands as recorded",
  requestOutcomes: {
    ANSWERED: "Answered.",
    NOT_FOUND: "This was answered meanwhile.",
  } as Readonly<Record<string, string>>,

  compareTitle: "My boxes and everyone’s",
  compareLead:
    "Only you see this. A few boxes at one place say little by themselves; that is why there are many.",
  hidden: (day: string) =>
    `Results are still hidden, so that nobody cooks by hearsay. They come out at the trial’s end, ${day}, or earlier where its plan says so.`,
  hiddenPending: (codes: readonly string[]) =>
    `Before that you have boxes to record: ${orList(codes)}. While one of yours waits, you see nothing of anyone’s.`,
  onItsWay: "The trial has closed; its results are being worked out.",
  interim: "An interim look: more boxes will come, and this may still turn.",
  compareScale: (level: string) =>
    `Growth from 0 (none) to 4 (nearly all). Hollow: your boxes. Solid, with a line: everyone’s mean with its ${level} interval.`,
  everyoneMean: (mean: string, lower: string, upper: string) => `everyone: ${mean} (${lower} to ${upper})`,
  everyoneOnly: (mean: string) => `everyone: ${mean}`,
  everyoneWithheld: "everyone: too few boxes or households to show",
  ownBox: (code: string, growth: string) => `${code}: ${growth}`,
  notKnown: "growth not known",
  mine: (boxes: readonly string[]) => `mine: ${orList(boxes)}`,
  toResults: "All results of this trial",

  lettersTitle: "Letters",
  lettersLead: "From whoever runs your trials. Answer by the address they give, if they give one.",
  letterFrom: (trial: string, day: string) => `${trial}, ${day}`,
  trialGone: "a trial",
  lettersOff: "Choose under Account whether they come by mail, too.",

  firstTitle: "Your first set of boxes",
  first: [
    "A set is two or more boxes of cooked grain that stand at one place on one day.",
    "Join a trial with its code, and add the place where your boxes may stand.",
    "Ask whoever owns the land first.",
    "Tell us which grains you can get; you see how much of each you might need.",
    "Then chance picks a recipe for each box, and you cook exactly that.",
    "Do this at home: the woods may have no signal.",
    "Label the boxes, set them out, and say when; the phone keeps it until it can send.",
    "We tell you when to look; fetch them, and open them outdoors with mask and gloves.",
    "Record what grew in each box, step by step, also when nothing did.",
    "What was lost or went wrong counts too, so say it.",
  ],
} as const;
