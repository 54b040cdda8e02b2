import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { countOpenRequests } from "@/lib/data/corrections";
import { findLeadTrial, type LeadTrialRow } from "@/lib/data/lead";
import { type DeskHousehold, type DeskSet, householdsOfTrial, setsOfTrial } from "@/lib/data/lead-desk";
import { pausesOf } from "@/lib/data/pauses";
import { done, type Result, refuse } from "@/lib/errors/result";
import { fetchDayOf } from "@/lib/services/growing/fetch-day";
import type { AbandonReason } from "@/shared/vocabulary/box";
import { PEOPLE_GROUPS, type PeopleGroup } from "@/shared/vocabulary/desk";
import { authoriseLead } from "./authorise";
import { fetchDueOn, groupsOf, isOverdue } from "./standing";

const PAGE = 25;

/** A household with its sets and the groups it is in. */
export interface Person extends DeskHousehold {
  readonly sets: readonly (DeskSet & {
    /** The day its waiting boxes should be fetched, `YYYY-MM-DD`; null while none waits. */
    readonly fetchOn: string | null;
    readonly isOverdue: boolean;
  })[];
  readonly groups: readonly PeopleGroup[];
}

/** What of a running trial waits for somebody. */
export interface Desk {
  readonly households: number;
  /** Of them, those that keep their seat and an account. */
  readonly here: number;
  /** Households by group. */
  readonly groups: Readonly<Record<PeopleGroup, number>>;
  /** Sets given up, by reason, the most frequent first. */
  readonly givenUp: readonly { readonly reason: AbandonReason; readonly sets: number }[];
  readonly openRequests: number;
}

export async function deskOf(
  tx: Transaction,
  actor: Actor,
  trialId: string,
  now: Date,
): Promise<Result<Desk, "NOT_FOUND">> {
  const trial = await ownOpened(tx, actor, trialId);
  if (!trial.ok) return trial;
  const people = await peopleOf(tx, trial.value, now);
  const inGroup = (group: PeopleGroup) => people.filter(({ groups }) => groups.includes(group)).length;
  return done({
    households: people.length,
    here: people.filter(({ isHere }) => isHere).length,
    groups: Object.fromEntries(PEOPLE_GROUPS.map((group) => [group, inGroup(group)])) as Desk["groups"],
    givenUp: givenUpByReason(people.flatMap(({ sets }) => sets)),
    openRequests: await countOpenRequests(tx, trialId),
  });
}

function givenUpByReason(sets: readonly DeskSet[]): Desk["givenUp"] {
  const counts = new Map<AbandonReason, number>();
  for (const { status, abandonReason } of sets) {
    if (status !== "abandoned") continue;
    const reason = abandonReason ?? "other";
    counts.set(reason, (counts.get(reason) ?? 0) + 1);
  }
  return [...counts].map(([reason, n]) => ({ reason, sets: n })).sort((a, b) => b.sets - a.sets);
}

export interface PeoplePage {
  readonly trial: LeadTrialRow;
  readonly people: readonly Person[];
  /** How many households the group has in all. */
  readonly all: number;
  /** From 1. */
  readonly page: number;
  readonly pages: number;
}

/** A page of a running trial's households in the order of their pseudonyms: all, or those of one group. */
export async function peoplePage(
  tx: Transaction,
  actor: Actor,
  asked: { readonly trialId: string; readonly group: PeopleGroup | null; readonly page: number },
  now: Date,
): Promise<Result<PeoplePage, "NOT_FOUND">> {
  const trial = await ownOpened(tx, actor, asked.trialId);
  if (!trial.ok) return trial;
  const { group } = asked;
  const households = await householdsIn(tx, trial.value);
  // Whoever asks for all needs no more than what the page shows; who is in a group, the sets of all decide.
  if (group === null) {
    const { shown, ...where } = pageOf(households, asked.page);
    return done({ trial: trial.value, people: await withSets(tx, trial.value, shown, now), ...where });
  }
  const people = await withSets(tx, trial.value, households, now);
  const { shown, ...where } = pageOf(
    people.filter(({ groups }) => groups.includes(group)),
    asked.page,
  );
  return done({ trial: trial.value, people: shown, ...where });
}

function pageOf<Row>(rows: readonly Row[], asked: number) {
  const pages = Math.max(1, Math.ceil(rows.length / PAGE));
  const page = Math.min(Math.max(1, asked), pages);
  return { shown: rows.slice((page - 1) * PAGE, page * PAGE), all: rows.length, page, pages };
}

type TrialOfPeople = Pick<LeadTrialRow, "id" | "plan" | "grouping">;

function householdsIn(tx: Transaction, { id, grouping }: TrialOfPeople): Promise<DeskHousehold[]> {
  return householdsOfTrial(
    tx,
    id,
    grouping.flatMap(({ classes }) => classes),
  );
}

/** All households of an opened trial, in three queries. */
export async function peopleOf(tx: Transaction, trial: TrialOfPeople, now: Date): Promise<Person[]> {
  return withSets(tx, trial, await householdsIn(tx, trial), now);
}

/** Households of a trial with their sets and how these stand. */
async function withSets(
  tx: Transaction,
  trial: TrialOfPeople,
  households: readonly DeskHousehold[],
  now: Date,
): Promise<Person[]> {
  const isPage = households.length <= PAGE;
  const ids = isPage ? households.map(({ enrolmentId }) => enrolmentId) : null;
  const setsOf = new Map<string, DeskSet[]>();
  for (const set of await setsOfTrial(tx, trial.id, ids)) {
    const own = setsOf.get(set.enrolmentId);
    if (own) own.push(set);
    else setsOf.set(set.enrolmentId, [set]);
  }
  const by = {
    planDays: fetchDayOf(trial.plan, null)?.afterDays ?? null,
    pauses: await pausesOf(tx, trial.id),
  };
  return households.map((household) => {
    const sets = setsOf.get(household.enrolmentId) ?? [];
    return {
      ...household,
      sets: sets.map((set) => ({
        ...set,
        fetchOn: fetchDueOn(set, by),
        isOverdue: isOverdue(set, by, now),
      })),
      groups: groupsOf(household, sets, by, now),
    };
  });
}

/** The actor's own trial once it has opened; a draft has nobody in it yet. */
export async function ownOpened(
  tx: Transaction,
  actor: Actor,
  trialId: string,
): Promise<Result<LeadTrialRow, "NOT_FOUND">> {
  const authorised = await authoriseLead(tx, actor, trialId);
  if (!authorised.ok) return authorised;
  const trial = await findLeadTrial(tx, authorised.value);
  return trial.status === "draft" ? refuse("NOT_FOUND") : done(trial);
}
