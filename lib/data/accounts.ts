import type { Transaction } from "./client";
import { keepLeadMailsBack } from "./mails";

/** What decides who somebody is and what they may do. */
const STANDING = {
  id: true,
  name: true,
  isAdmin: true,
  mayLead: true,
  sessionVersion: true,
  disabledAt: true,
  growerId: true,
  grower: { select: { householdId: true } },
} as const;

export function accountStanding(tx: Transaction, accountId: string) {
  return tx.account.findUnique({ where: { id: accountId }, select: STANDING });
}

/** `email` in lower case, as it is stored. */
export function accountForSignIn(tx: Transaction, email: string) {
  return tx.account.findUnique({
    where: { email },
    select: { id: true, passwordHash: true, sessionVersion: true, disabledAt: true },
  });
}

export function accountForReset(tx: Transaction, email: string) {
  return tx.account.findUnique({
    where: { email },
    select: { id: true, name: true, email: true, disabledAt: true },
  });
}

/** Whom to write to about a grower; null when they have left. */
export function accountOfGrower(tx: Transaction, growerId: string) {
  return tx.account.findUnique({ where: { growerId }, select: { id: true, name: true, email: true } });
}

/** An account's own settings page, and its password hash to ask for the password again. */
export function ownAccount(tx: Transaction, accountId: string) {
  return tx.account.findUniqueOrThrow({
    where: { id: accountId },
    select: {
      id: true,
      name: true,
      email: true,
      passwordHash: true,
      leadMailsOff: true,
      sessionVersion: true,
      createdAt: true,
      growerId: true,
      grower: {
        select: { household: { select: { joinCode: true, _count: { select: { growers: true } } } } },
      },
    },
  });
}

export interface NewAccount {
  readonly id: string;
  /** In lower case. */
  readonly email: string;
  readonly name: string;
  readonly passwordHash: string;
  readonly growerId: string;
  readonly householdId: string;
}

/** A person and their pseudonym. False when the address already has an account; then nothing is written. */
export async function insertAccount(tx: Transaction, account: NewAccount): Promise<boolean> {
  const { growerId, householdId, ...row } = account;
  if (await tx.account.findUnique({ where: { email: row.email }, select: { id: true } })) return false;
  await tx.grower.create({ data: { id: growerId, householdId } });
  // Two sign-ups at once: the second meets the first one's unique address here.
  const { count } = await tx.account.createMany({ data: [{ ...row, growerId }], skipDuplicates: true });
  return count === 1;
}

export async function setAccountName(tx: Transaction, accountId: string, name: string): Promise<void> {
  await tx.account.update({ where: { id: accountId }, data: { name } });
}

/** A new password ends every session; returns the version new sessions carry. */
export async function setPasswordHash(
  tx: Transaction,
  accountId: string,
  passwordHash: string,
): Promise<number> {
  const { sessionVersion } = await tx.account.update({
    where: { id: accountId },
    data: { passwordHash, sessionVersion: { increment: 1 } },
    select: { sessionVersion: true },
  });
  return sessionVersion;
}

export async function endSessions(tx: Transaction, accountId: string): Promise<void> {
  await tx.account.update({ where: { id: accountId }, data: { sessionVersion: { increment: 1 } } });
}

/** Deletes the account with everything erasable it owns; its pseudonym stays, marked as left. */
export async function deleteAccount(tx: Transaction, accountId: string, growerId: string): Promise<void> {
  await tx.account.delete({ where: { id: accountId } });
  await tx.waitingPlace.deleteMany({ where: { growerId } });
  await tx.grower.update({ where: { id: growerId }, data: { leftAt: new Date() } });
}

export function countOtherAdmins(tx: Transaction, accountId: string): Promise<number> {
  return tx.account.count({ where: { isAdmin: true, disabledAt: null, id: { not: accountId } } });
}

/** Other people of the same household who still have an account; held, so that of two who leave at once one is the last. */
export async function countOtherAccounts(
  tx: Transaction,
  { accountId, householdId }: { accountId: string; householdId: string },
): Promise<number> {
  await tx.$queryRaw`SELECT id FROM household WHERE id = ${householdId}::uuid FOR UPDATE`;
  return tx.account.count({ where: { grower: { householdId }, id: { not: accountId } } });
}

export interface LedAloneRow {
  readonly id: string;
  readonly title: string;
}

/** Holds the trials that an account leads, so that of two leads who leave at once one is the last. */
export async function holdTrialsLedBy(tx: Transaction, accountId: string): Promise<void> {
  await tx.$queryRaw`
    SELECT trial.id FROM trial JOIN trial_lead ON trial_lead.trial_id = trial.id
    WHERE trial_lead.account_id = ${accountId}::uuid ORDER BY trial.id FOR UPDATE OF trial`;
}

/**
 * Trials that would be left without a lead who can sign in, though they need one: open ones, and closed ones whose
 * final results can be released and aren't.
 * @param leastHouseholds fewer with drawn boxes can't be released
 */
export function trialsLedAlone(
  tx: Transaction,
  accountId: string,
  leastHouseholds: number,
): Promise<LedAloneRow[]> {
  return tx.$queryRaw<LedAloneRow[]>`
    SELECT trial.id::text, trial.title FROM trial JOIN trial_lead own ON own.trial_id = trial.id
    WHERE own.account_id = ${accountId}::uuid
      AND NOT EXISTS (SELECT FROM trial_lead other JOIN account ON account.id = other.account_id
        WHERE other.trial_id = trial.id AND other.account_id <> own.account_id AND account.disabled_at IS NULL)
      AND (trial.status = 'open' OR (trial.status = 'closed'
        AND NOT EXISTS (SELECT FROM trial_release release WHERE release.trial_id = trial.id)
        AND (SELECT count(DISTINCT outing.enrolment_id) FROM outing
          WHERE outing.trial_id = trial.id AND outing.committed_at IS NOT NULL) >= ${leastHouseholds}))
    ORDER BY trial.id`;
}

/** Deletes the drafts that an account, and nobody else, leads. */
export async function deleteDraftsLedAlone(tx: Transaction, accountId: string): Promise<void> {
  await tx.trial.deleteMany({ where: { status: "draft", leads: { some: {}, every: { accountId } } } });
}

/** A page of accounts in the order they were made, after the id `after`. */
export function listAccounts(
  tx: Transaction,
  {
    after,
    search,
    take,
  }: { readonly after: string | undefined; readonly search: string; readonly take: number },
) {
  return tx.account.findMany({
    where: {
      ...(after ? { id: { gt: after } } : {}),
      ...(search
        ? { OR: [{ name: { contains: search, mode: "insensitive" } }, { email: search.toLowerCase() }] }
        : {}),
    },
    orderBy: { id: "asc" },
    take,
    select: {
      id: true,
      name: true,
      isAdmin: true,
      mayLead: true,
      disabledAt: true,
      createdAt: true,
    },
  });
}

/** Disabling ends the account's sessions for good, even if it is enabled again. */
export async function setAccountDisabled(
  tx: Transaction,
  accountId: string,
  disabled: boolean,
): Promise<void> {
  await tx.account.update({
    where: { id: accountId },
    data: disabled ? { disabledAt: new Date(), sessionVersion: { increment: 1 } } : { disabledAt: null },
  });
}

export async function setMayLead(tx: Transaction, accountId: string, mayLead: boolean): Promise<void> {
  await tx.account.update({ where: { id: accountId }, data: { mayLead } });
}

/** Has letters from leads mailed to an account or not; what waited to be mailed then stays under "My things" only. */
export async function setLeadMails(tx: Transaction, accountId: string, wanted: boolean): Promise<void> {
  await tx.account.updateMany({ where: { id: accountId }, data: { leadMailsOff: !wanted } });
  if (!wanted) await keepLeadMailsBack(tx, accountId);
}
