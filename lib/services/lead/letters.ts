import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { type LeadTrialRow, lockTrial } from "@/lib/data/lead";
import {
  countLettersSince,
  insertLetter,
  type LetterReader,
  lettersOf,
  readersOf,
  type SentLetter,
} from "@/lib/data/letters";
import { insertLeadMails, LETTER } from "@/lib/data/mails";
import { done, type Result, refuse } from "@/lib/errors/result";
import { type Audience, LETTERS_A_DAY, type Letter } from "@/shared/schemas/letter";
import { ownOpened, type Person, peopleOf } from "./desk";

export type { SentLetter };

const DAY_MS = 24 * 3_600_000;
const PAGE = 20;

/** To how many a letter would go. */
export interface LetterReach {
  readonly households: number;
  readonly people: number;
  /** People who get it by mail, too; the others find it under "My things". */
  readonly byMail: number;
}

/** Counts whom a letter of the actor's would reach, and sends nothing. */
export async function reachOf(
  tx: Transaction,
  actor: Actor,
  { trialId, audience }: { readonly trialId: string; readonly audience: Audience },
  now: Date,
): Promise<Result<LetterReach, "NOT_FOUND" | "NOBODY_THERE">> {
  const trial = await ownOpened(tx, actor, trialId);
  if (!trial.ok) return trial;
  const { households, readers } = await readersIn(tx, trial.value, audience, now);
  if (readers.length === 0) return refuse("NOBODY_THERE");
  return done({ households, people: readers.length, byMail: readers.filter(({ byMail }) => byMail).length });
}

/** Sends a letter to everyone the audience holds at this moment; the same letter again is one letter. */
export async function sendLetter(
  tx: Transaction,
  actor: Actor,
  { trialId, letter }: { readonly trialId: string; readonly letter: Letter },
  now: Date,
): Promise<
  Result<{ readonly people: number }, "NOT_FOUND" | "NOBODY_THERE" | "TOO_MANY_LETTERS" | "ALREADY_SENT">
> {
  const trial = await ownOpened(tx, actor, trialId);
  if (!trial.ok) return trial;
  const audience = letter.audience as Audience;
  const { readers } = await readersIn(tx, trial.value, audience, now);
  if (readers.length === 0) return refuse("NOBODY_THERE");
  await lockTrial(tx, trialId); // so that letters sent at once are counted one after the other
  const today = await countLettersSince(tx, trialId, new Date(now.getTime() - DAY_MS));
  if (today >= LETTERS_A_DAY) return refuse("TOO_MANY_LETTERS");
  const { id, subject, body } = letter;
  const kept = await insertLetter(tx, {
    ...{ id, audience, subject, body, trialId },
    accountId: actor.accountId,
    recipients: readers.length,
    sentAt: now,
  });
  if (!kept) return refuse("ALREADY_SENT");
  await insertLeadMails(
    tx,
    readers.map(({ accountId, email, byMail }) => ({
      ...{ id: v7(), kind: LETTER, accountId, trialId, subject, body, byMail },
      toAddress: email,
    })),
  );
  await insertAuditEntry(tx, {
    growerId: actor.growerId,
    action: "letter.sent",
    subjectId: trialId,
    detail: { audience, people: readers.length },
  });
  return done({ people: readers.length });
}

async function readersIn(
  tx: Transaction,
  trial: LeadTrialRow,
  audience: Audience,
  now: Date,
): Promise<{ readonly households: number; readonly readers: readonly LetterReader[] }> {
  const people = (await peopleOf(tx, trial, now)).filter(
    (person) => person.isHere && isAddressed(person, audience),
  );
  const ids = people.map(({ enrolmentId }) => enrolmentId);
  return { households: people.length, readers: await readersOf(tx, trial.id, ids) };
}

function isAddressed({ pseudonym, groups }: Person, audience: Audience): boolean {
  if (audience === "everyone") return true;
  return audience.startsWith("home-")
    ? audience === `home-${pseudonym}`
    : groups.some((group) => group === audience);
}

/** A page of the letters of the actor's trial, the latest first, and whether more follow. */
export async function letterLog(
  tx: Transaction,
  actor: Actor,
  { trialId, page }: { readonly trialId: string; readonly page: number },
): Promise<
  Result<
    { readonly trial: LeadTrialRow; readonly letters: SentLetter[]; readonly more: boolean },
    "NOT_FOUND"
  >
> {
  const trial = await ownOpened(tx, actor, trialId);
  if (!trial.ok) return trial;
  const letters = await lettersOf(tx, trialId, { skip: (page - 1) * PAGE, take: PAGE + 1 });
  return done({ trial: trial.value, letters: letters.slice(0, PAGE), more: letters.length > PAGE });
}
