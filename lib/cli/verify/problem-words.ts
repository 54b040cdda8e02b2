import type { LedgerProblem } from "@/lib/engine/design/ledger-problem";
import type { LedgerFileRefusal } from "@/lib/engine/design/read-ledger-file";

/** What is wrong with a ledger, to stand after the draw's number or alone. */
export const problemWords: Readonly<Record<LedgerProblem, string>> = {
  WRONG_SECRET: "the secret is not the one that was sealed: its SHA-256 is not the seal.",
  PLAN_CHANGED: "the plan is not the one that was published: its SHA-256 is not the plan hash.",
  CHANGED_ENTRY: "altered: its content no longer gives its hash.",
  BROKEN_CHAIN: "does not follow the draw before it: one was left out, swapped or slipped in.",
  SECOND_DRAW_FOR_OUTING: "a second draw for an outing that had been drawn before.",
  ARMS_CHANGED: "drawn among other arms than the plan's.",
  OUTSIDE_PLAN: "its boxes, climate group, grains or fetch day are none that the plan has.",
  COUNTS_DONT_FOLLOW: "its counts of boxes drawn before do not follow from the earlier draws.",
  RETURN_DOESNT_FOLLOW:
    "it gives back the allocation of an outing that this household never had or that has been given back already.",
  UNKNOWN_ALGORITHM:
    "made by a rule that this version of Grainlot doesn't know. Check it with a newer version.",
  OLDER_ALGORITHM:
    "made by an older rule than the draw before it or the plan: with two rules to pick from, somebody could choose.",
  NOT_AS_DRAWN: "drawing again from the secret gives another result: somebody chose.",
  TRUNCATED: "missing: more draws were published than the ledger holds.",
  OTHER_HEAD: "its hash is not the last hash that was published: the chain was rewritten.",
  OTHER_TRIAL:
    "the head given has another seal: the head is another trial's, or the ledger was made up under another secret.",
};

/** Why a file was not checked, and what to do. */
export const refusalWords: Readonly<Record<LedgerFileRefusal, string>> = {
  NOT_JSON: "This is not JSON text. Give the ledger as it was downloaded.",
  OTHER_FORM: "This is a ledger of a form that this version of Grainlot doesn't know. Use a newer version.",
  NOT_A_LEDGER:
    "This is no ledger, or a part of it is missing or misshapen; grainlot verify --schema prints its form.",
};
