import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { enrolmentsOf } from "@/lib/data/enrolments";
import { lettersTo, type ReceivedLetter, waitingIn } from "@/lib/data/my-things";
import { pausesForHousehold } from "@/lib/data/pauses";
import { type OwnRequest, requestsToMe } from "./corrections";
import { type OutingListItem, outingList } from "./outing-list";
import { ownComparisons, type TrialComparison } from "./own-comparison";
import { type SiteView, siteViews } from "./sites";

const LETTERS = 10;

/** Pages of sets looked through for what still waits; older ones stand under "My boxes". */
const PAGES = 5;

export interface MyThings {
  /** Sets that wait for something, newest first. */
  readonly sets: readonly OutingListItem[];
  /** Whether the actor has ever planned a set. */
  readonly hasSets: boolean;
  readonly requests: readonly OwnRequest[];
  readonly pauses: Awaited<ReturnType<typeof pausesForHousehold>>;
  readonly waiting: Awaited<ReturnType<typeof waitingIn>>;
  readonly places: readonly SiteView[];
  /** Whether the household takes part in an open trial. */
  readonly takesPart: boolean;
  readonly comparisons: readonly TrialComparison[];
  readonly letters: readonly ReceivedLetter[];
}

/** All that waits for the actor, what is missing, and what came of it. */
export async function myThings(tx: Transaction, actor: Actor): Promise<MyThings> {
  const { hasSets, sets } = await waitingSets(tx, actor);
  const enrolments = await enrolmentsOf(tx, actor.householdId);
  return {
    sets,
    hasSets,
    requests: await requestsToMe(tx, actor),
    pauses: await pausesForHousehold(tx, actor.householdId),
    waiting: await waitingIn(tx, actor.householdId),
    places: await siteViews(tx, actor),
    takesPart: enrolments.some(({ trial, leftAt }) => trial.status === "open" && !leftAt),
    comparisons: await ownComparisons(tx, actor),
    letters: await lettersTo(tx, actor.accountId, LETTERS),
  };
}

async function waitingSets(tx: Transaction, actor: Actor) {
  const sets: OutingListItem[] = [];
  let hasSets = false;
  let before: string | undefined;
  for (let page = 0; page < PAGES; page++) {
    const { items, next } = await outingList(tx, actor, before);
    hasSets ||= items.length > 0;
    sets.push(...items.filter(({ due }) => due.kind !== "done" && due.kind !== "given-up"));
    if (!next) break;
    before = next;
  }
  return { sets, hasSets };
}
