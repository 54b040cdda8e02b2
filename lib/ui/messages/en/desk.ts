import { BODY_MAX_LENGTH, LETTERS_A_DAY, SUBJECT_MAX_LENGTH } from "@/shared/schemas/letter";
import type {
  CorrectionAnswer,
  CorrectionKind,
  HideableKind,
  OddSign,
  PeopleGroup,
} from "@/shared/vocabulary/desk";

const people = (n: number) => (n === 1 ? "1 person" : `${n} people`);
const householdsWord = (n: number) => (n === 1 ? "1 household" : `${n} households`);

/** Words of a running trial’s desk: what its lead sees to while growers are out. */
export const deskMessages = {
  back: "Back to the desk",
  newer: "Back",
  older: "More",
  pageOf: (page: number, pages: number) => `Page ${page} of ${pages}`,

  waiting: {
    title: "Who waits for what",
    lead: (households: number, here: number) =>
      households === here
        ? `${householdsWord(households)} take part. You see them by their made-up names, never a name, an address or a place.`
        : `${householdsWord(households)} take part, ${here} of them still here. You see them by their made-up names, never a name, an address or a place.`,
    nobody: "Nobody has joined yet.",
    requests: "Waiting for an answer to what you asked",
  },
  groups: {
    "no-place": { name: "No place yet", hint: "Joined, but no place in a climate group of the trial." },
    "not-set-out": { name: "Nothing set out yet", hint: "They have a place; no box is out." },
    "drawn-only": { name: "Picked, not set out", hint: "A set whose recipes are picked, with no box out." },
    overdue: {
      name: "Overdue to fetch",
      hint: "Boxes that should have been fetched two days ago or earlier; days of a pause don’t count.",
    },
    unrecorded: { name: "Back, not recorded", hint: "Boxes fetched or opened without a record of growth." },
    "gave-up": { name: "Gave a set up", hint: "With the reason beside each set." },
  } satisfies Readonly<Record<PeopleGroup, { name: string; hint: string }>>,

  work: {
    title: "At the desk",
    people: "Households and their sets",
    letters: "Letters",
    corrections: "Corrections",
    told: "Own words and pictures",
    pause: "Pause",
    leads: "Leads",
    recruit: "Recruit growers",
    export: "Take boxes along",
    copy: "Another season",
    release: "Final results",
  },

  progress: {
    title: "How far it has come",
    /** By the names of the counts. */
    counts: {
      households: "Households",
      sets: "Sets",
      abandonedSets: "Given up",
      boxes: "Boxes",
      setOut: "Set out",
      opened: "Opened",
      recorded: "Recorded",
      lost: "Lost",
    },
    growth: "Boxes by growth, all recipes together",
    regions: "By region",
    region: (households: number, sets: number, boxes: number, recorded: number) =>
      `${householdsWord(households)}, ${sets === 1 ? "1 set" : `${sets} sets`}, ${boxes} boxes, ${recorded} recorded`,
    seats: (region: string, all: number) => `${region}, of ${all}`,
    givenUp: "Sets given up",
    losses: "Boxes past recording, by what happened; one may count more than once",
  },

  people: {
    title: "Households and their sets",
    lead: "By the household’s made-up name in this trial. Names, addresses and places stay with the growers.",
    filter: "Show",
    everyone: "Everyone",
    found: (n: number) => (n === 0 ? "Nobody is in this group now." : householdsWord(n)),
    write: "Write to this group",
    writeOne: (pseudonym: string) => `Write to ${pseudonym}`,
    joined: (region: string, day: string) => `${region}, joined ${day}`,
    left: "No longer takes part",
    noSets: "No set of boxes yet.",
    set: (code: string, day: string) => `Set ${code}, for ${day}`,
    planned: "planned, recipes not picked",
    givenUp: (reason: string) => `given up: ${reason}`,
    drawn: "recipes picked, not set out",
    counts: (setOut: number, boxes: number, settled: number) =>
      `${setOut} of ${boxes} boxes out, ${settled} recorded or past recording`,
    fetchOn: (day: string) => `to fetch on ${day}`,
    overdue: (day: string) => `overdue since ${day}`,
    unrecorded: (boxes: number) =>
      boxes === 1 ? "1 box back, not recorded" : `${boxes} boxes back, not recorded`,
  },

  letters: {
    title: "Letters",
    lead: "A letter stands under “My things” of everyone you write to, and goes to them by mail unless they have switched that off. Answers don’t come back here, so say how you can be reached.",
    write: "Write a letter",
    to: "To",
    everyone: "Everyone who takes part",
    home: (pseudonym: string) => `The home ${pseudonym}`,
    subject: "Subject",
    subjectHint: `At most ${SUBJECT_MAX_LENGTH} characters.`,
    body: "Letter",
    bodyHint: `Plain text, at most ${BODY_MAX_LENGTH} characters. No names and no places of growers: everyone in the group reads it.`,
    look: "Look at it first",
    preview: "This is what they get",
    reach: (reach: { households: number; people: number; byMail: number }) =>
      `It goes to ${people(reach.people)} in ${householdsWord(reach.households)}; ${reach.byMail} of them get it by mail, too.`,
    send: "Send it",
    change: "Change it",
    log: "Letters sent",
    none: "You have sent no letter yet.",
    sent: (moment: string, to: string, n: number) => `${moment}. To: ${to} (${people(n)})`,
  },

  corrections: {
    title: "Corrections",
    lead: "You never change a record. You ask whoever set the box out to look again; they correct it themselves or say that it stands. A request ends by itself when something new is recorded of the box.",
    find: "Find a box",
    code: "Code on its label",
    codeHint: "Such as K7Q-2.",
    open: "Look at it",
    codeMissing: "Type the code.",
    unknown: "No drawn box of this trial has this code.",
    odd: "Records that look odd",
    oddLead: "Simple checks of what was written down, without regard to recipes. Odd need not be wrong.",
    noOdd: "No record looks odd.",
    waiting: "Waiting for an answer",
    noWaiting: "Nothing is waiting for an answer.",
    answered: "Answered",
    noAnswered: "Nothing has been answered yet.",
    asked: (day: string) => `Asked ${day}`,
    kinds: {
      grams: "The grams don’t add up",
      "per-cent": "Per cents and picture disagree",
      times: "The times stand in the wrong order",
      "no-record": "The record is missing",
      other: "Something else",
    } satisfies Readonly<Record<CorrectionKind, string>>,
    answers: {
      "recorded-anew": "Something new was recorded",
      stands: "The grower says it stands as recorded",
    } satisfies Readonly<Record<CorrectionAnswer, string>>,
    signs: {
      "too-heavy": "It weighs more than its box can hold",
      "usable-without-growth": "Usable grain, but no growth",
      "picture-differs": "The picture and the per cent differ",
      "over-hundred": "Growth and other colours are more than the whole surface",
      "times-order": "Fetched or opened before it was set out",
      "not-recorded": "Opened more than three days ago, no record",
    } satisfies Readonly<Record<OddSign, string>>,
  },

  told: {
    title: "Own words and pictures",
    lead: "What growers wrote about their boxes and what they photographed, the latest first. Open the box to hide something. Own words about the cooking come after the close, own words about places never.",
    none: "Nobody has written anything or sent a picture yet.",
  },

  box: {
    title: (code: string) => `Box ${code}`,
    lead: (pseudonym: string) =>
      `Of the household ${pseudonym}. Which recipe it holds isn’t shown here, and nobody’s place.`,
    events: "What was told of it",
    noEvents: "Nothing was told of it yet.",
    withdrawn: "taken back",
    record: "Record of growth",
    noRecord: "No growth is recorded.",
    version: (revision: number, moment: string) => `Version ${revision}, ${moment}`,
    growth: "Growth",
    words: "Own words",
    wordsLead:
      "Hide what could say who or where somebody is, or hurts somebody. Own words about the cooking come after the close: they can name the grain.",
    noWords: "There are none.",
    pictures: "Pictures",
    noPictures: "There are none.",
    picture: (n: number) => `Picture ${n} of this box`,
    setPicture: (n: number) => `Picture ${n}, of the whole set`,
    pictureOf: (code: string) => `Picture from the set of box ${code}`,
    /** `reason` empty: it went with the account of whoever gave it. */
    hidden: (reason: string) =>
      `Hidden from everyone but its author. ${reason ? `Why: ${reason}` : "The lead who hid it has left, and the reason with them."}`,
    hide: { words: "Hide these words", picture: "Hide this picture" } satisfies Readonly<
      Record<HideableKind, string>
    >,
    reason: "Why",
    reasonHint: "Its author reads this.",
    hideSubmit: "Hide it",
    show: "Show it again",
    asked: "Asked about it",
    ask: "Ask for a correction",
    askLead: "Only the grower changes the record.",
    kind: "What should they look at?",
    own: "In your own words",
    ownHint: "They read this under “My things”. Needed where nothing above fits.",
    askSubmit: "Ask",
    closed: "The trial has closed: a correction would change no result any more.",
    gone: "Whoever set this box out has left; nobody can correct it.",
  },

  pause: {
    title: "Pause the trial",
    lead: "For fire, drought or whatever else keeps people out of the woods. While it stands no recipes are picked; boxes that are out can still be fetched and recorded, and none of these days counts as late. Everyone sees the reason and the days on the trial’s page. A pause doesn’t move the trial’s end; amend the plan for that.",
    reason: "Why",
    submit: "Pause it",
    resume: "Go on",
    resumeLead: "Draws are possible again at once.",
    write: "Write to everyone about it",
    none: "The trial has never been paused.",
    closed: "The trial isn’t open.",
  },

  leads: {
    title: "Leads",
    lead: "All leads of a trial may do the same. To hand a trial over, add the next lead, then step back.",
    you: "you",
    add: "Add a lead",
    email: "Their email address",
    emailHint:
      "Of an account that may make trials; whoever runs this server allows that. They are told by mail.",
    addSubmit: "Add them",
    back: "Step back",
    backLead: "You will not see this trial’s desk any more, unless another lead adds you again.",
    backConfirm: "I want to step back.",
    backSubmit: "Step back from this trial",
    last: "You are the only lead. Add another one before you step back: a trial without a lead could never be closed or released.",
  },

  /** By the code an action answers with. */
  outcomes: {
    SENT: "The letter is on its way.",
    ALREADY_SENT: "This letter was sent before.",
    NOBODY_THERE: "Nobody is in this group now.",
    TOO_MANY_LETTERS: `${LETTERS_A_DAY} letters within a day are the most. Wait until tomorrow.`,
    ASKED: "They are asked.",
    ALREADY_ASKED: "That was asked already, and waits for an answer.",
    NOBODY_TO_ASK: "Whoever set this box out has left; nobody can correct it.",
    HIDDEN: "It is hidden, and its author is told why.",
    ALREADY_HIDDEN: "It was hidden before.",
    SHOWN: "It can be seen again.",
    NOT_HIDDEN: "It could be seen already.",
    PAUSED: "The trial stands still.",
    ALREADY_PAUSED: "The trial stands still already.",
    RESUMED: "The trial goes on.",
    NOT_PAUSED: "The trial wasn’t paused.",
    LEAD_ADDED: "They lead the trial with you now.",
    NO_SUCH_LEAD:
      "There is no account with this address that may lead a trial. Whoever runs this server can allow it.",
    LEADS_ALREADY: "They lead this trial already.",
    LAST_LEAD: "You are the only lead. Add another one before you step back.",
    TOO_MANY_REQUESTS: "Too many tries. Wait an hour.",
    TRIAL_NOT_OPEN: "The trial isn’t open.",
    NOT_FOUND: "There is nothing here for you.",
    CONFIRM: "Tick the box first.",
    INVALID: "Some answers can’t be used. Mend the ones marked.",
  } as Readonly<Record<string, string>>,
  /** By the code a field’s schema gives. */
  faults: {
    "letter.audience": "Choose whom it goes to.",
    "letter.subject": `Write a subject of at most ${SUBJECT_MAX_LENGTH} characters.`,
    "letter.body": `Write a letter of at most ${BODY_MAX_LENGTH} characters.`,
    "correction.kind": "Choose what they should look at.",
    "correction.words": "Say in your own words what they should look at.",
    "correction.long": "Keep it to 500 characters.",
    "hiding.reason": "Give the reason, in at most 300 characters.",
    "pause.reason": "Choose why.",
    "lead.email": "Type an email address.",
    CONFIRM: "Tick the box first.",
  } as Readonly<Record<string, string>>,
} as const;
