import type { LedgerProblem } from "@/lib/engine/design/ledger-problem";
import type { LedgerFileRefusal } from "@/lib/engine/design/read-ledger-file";

/** A problem's name in a few words, and what it means for whoever relies on the trial. */
const problems: Readonly<Record<LedgerProblem, { readonly what: string; readonly meaning: string }>> = {
  WRONG_SECRET: {
    what: "The secret is not the one that was sealed.",
    meaning:
      "Its SHA-256 is not the seal published when the trial opened, so the picks can't be shown to follow from a secret fixed beforehand.",
  },
  PLAN_CHANGED: {
    what: "The plan is not the one that was published.",
    meaning:
      "Its fingerprint is not the one fixed when the trial opened: the plan in this ledger was altered later.",
  },
  CHANGED_ENTRY: {
    what: "This pick was altered.",
    meaning:
      "What the ledger says went in or came out no longer gives the fingerprint it was filed under: a recipe, a grain or something else in it was changed afterwards.",
  },
  BROKEN_CHAIN: {
    what: "This pick does not follow the one before it.",
    meaning:
      "A pick was left out, swapped with another or slipped in, or the ledger is joined from parts of two trials.",
  },
  SECOND_DRAW_FOR_OUTING: {
    what: "This set of boxes had been picked for before.",
    meaning: "A set gets its recipes once. Picking again lets somebody keep the result they like better.",
  },
  ARMS_CHANGED: {
    what: "This pick was made among other recipes than the plan's.",
    meaning: "The recipes, their order or their grains are not those fixed when the trial opened.",
  },
  OUTSIDE_PLAN: {
    what: "This pick was made for something the plan doesn't have.",
    meaning:
      "Its number of boxes, climate group, grains or day to fetch are none that were fixed when the trial opened.",
  },
  COUNTS_DONT_FOLLOW: {
    what: "This pick rests on wrong counts.",
    meaning:
      "How often each recipe had been picked before does not follow from the earlier picks in this ledger.",
  },
  RETURN_DOESNT_FOLLOW: {
    what: "This pick gives back recipes it can't give back.",
    meaning:
      "It says that it repeats the recipes of an earlier set that was given up, but no such set of that household is in the ledger, or it was given back already.",
  },
  UNKNOWN_ALGORITHM: {
    what: "This pick was made by a rule that is not known here.",
    meaning: "Use a newer version of Grainlot to check it. Nothing is said against the pick itself.",
  },
  OLDER_ALGORITHM: {
    what: "This pick was made by an older rule than it should be.",
    meaning:
      "A trial goes on by the rule it has, or a newer one. With two rules to pick by, somebody could keep the result they like better.",
  },
  NOT_AS_DRAWN: {
    what: "Picking again from the secret gives other recipes.",
    meaning: "The recipes written down are not those that chance gave: somebody chose.",
  },
  TRUNCATED: {
    what: "Picks are missing at the end.",
    meaning: "More sets of boxes were picked for than this ledger holds.",
  },
  OTHER_HEAD: {
    what: "The ledger ends otherwise than was published.",
    meaning:
      "Up to this pick it hangs together, but it is not the chain whose last fingerprint was published: it was rewritten.",
  },
  OTHER_TRIAL: {
    what: "The seal is not the one published for this trial.",
    meaning: "The ledger is another trial's, or was made up under another secret.",
  },
};

/** Why a file was not checked at all, and what to do. */
const refusals: Readonly<Record<LedgerFileRefusal | "TOO_LARGE" | "UNREACHABLE", string>> = {
  TOO_LARGE: "The file is larger than 40 MB. A ledger of 10,000 picks is smaller; is this the right file?",
  NOT_JSON:
    "The file is not JSON text. Choose the ledger as it was downloaded, not opened and saved by another program.",
  OTHER_FORM: "This is a ledger of a form that is not known here. Check it with a newer version of Grainlot.",
  NOT_A_LEDGER: "This file is not a trial's ledger, or a part of it is missing or misshapen.",
  UNREACHABLE: "The ledger could not be fetched. Check your connection and try again.",
};

/** Words of the page that shows that nobody chose. */
export const proofMessages = {
  title: "Proof that nobody chose",
  pageTitle: (trial: string) => `Proof that nobody chose: ${trial}`,
  lead: "Chance picked the recipe of every box in this trial. Nobody has to be believed for that: here is what shows it, and how to check it.",
  toTrial: "To the trial",

  how: "How it works",
  steps: [
    "Before the first pick a secret number was made, and its fingerprint, the seal, was published. The seal gives nothing of the secret away, but no other secret fits it.",
    "Each pick follows from the secret, its number and what was known about the set of boxes: climate group, region, grains at hand, earlier picks. It is written into a ledger under pseudonyms.",
    "Each entry carries the fingerprint of the one before. Whoever changes, drops, adds or swaps one changes every fingerprint after it, the last one included, which stands on this page.",
    "When the trial closes, the secret and the ledger are published. Then anyone can make every pick again.",
  ],

  now: "As published now",
  nowNote:
    "Write this line down or save the page. A ledger that ever disagrees with it has been changed since.",
  seal: "Seal (SHA-256 of the secret)",
  draws: "Sets of boxes picked for",
  lastHash: "Fingerprint of the last pick",
  planHash: "Fingerprint of the plan",
  secret: "The secret",
  secretKept: "published when the trial closes",
  headLine: "In one line, as the command takes it",

  receipt: "Your receipt",
  receiptLead:
    "You find it with your set of boxes, under the same heading as this page. It shows which pick was yours and whether it still stands.",
  receiptField: "Short fingerprint",
  receiptHint: "Two groups of eight, such as 0a1b2c3d-4e5f6a7b",
  receiptButton: "Look it up",
  receiptStands: (number: string, of: string) =>
    `This is pick ${number} of ${of}. It stands: every later pick is chained to it, up to the last fingerprint above.`,
  receiptBroken: (number: string) =>
    `Pick ${number} carries this fingerprint, but the chain from it to the last one is broken. Keep your receipt and tell the trial's lead.`,
  receiptFull: "Whole fingerprint",
  receiptRule: "Made by rule",
  receiptThenCheck: "Whether it came out as chance gave it is checked below, with all the others.",
  receiptThenWait: "Whether it came out as chance gave it can be checked once the trial has closed.",
  receiptProblems: {
    NOT_A_RECEIPT: "A short fingerprint is sixteen digits and letters from a to f, in two groups of eight.",
    NO_SUCH_DRAW:
      "No pick of this trial carries this fingerprint. Compare it with your receipt letter by letter; if it is the same, keep the receipt and tell the trial's lead.",
  },

  ledger: "The ledger",
  ledgerSealed:
    "It tells the recipe of every box, so it stays closed until the trial does: until then growers see the recipes of their own boxes only. It is published here with the secret.",
  download: "Download the ledger",
  downloadNote:
    "JSON, one pick a line, pseudonyms only: no names, no places, no days. It can be checked without this server, by a program of your own (its form: grainlot verify --schema) or by this command:",
  command: (slug: string, head: string) => `grainlot verify grainlot-${slug}-ledger.json --head "${head}"`,

  check: "Check every pick",
  checkLead:
    "Your browser fetches the ledger, makes every pick again from the secret and compares. Nothing is sent.",
  checkButton: "Check every pick",
  ownFile: "Or check a ledger you kept",
  ownFileHint: "A file downloaded here earlier; it stays on your device.",
  fetching: "Fetching the ledger …",
  checking: (checked: string, of: string) => `${checked} of ${of} picks checked …`,
  progressLabel: "Picks checked",
  stop: "Stop",
  noDraws: "There was no pick in this trial.",
  verified: (draws: string) => `All ${draws} picks stand: each came out as chance gave it.`,
  verifiedMore:
    "The secret fits the seal, the plan is the one that was published, the chain is whole and ends as this page says.",
  chainOnly: (draws: string) =>
    `The chain of ${draws} picks is whole. They could not be made again: this ledger was taken before the secret was published.`,
  longer: {
    what: "The ledger holds more picks than were published.",
    meaning: "Whatever comes after the last published one was added later.",
  },
  broken: "The check broke off. Reload the page and try again, or use the command below.",
  fails: "This ledger does not stand.",
  atDraw: (number: string) => `The first that doesn't match is pick ${number}.`,
  otherTrial: (title: string) =>
    `This is the ledger of another trial, “${title}”. Choose the one of this trial.`,
  faulty: (path: string) => `The first place that doesn't fit: ${path}.`,
  whatNow:
    "If this is a copy somebody gave you, download the ledger here and compare. If it is the ledger from this page, tell the trial's lead and don't rely on the results.",
  problems,
  refusals,
} as const;
