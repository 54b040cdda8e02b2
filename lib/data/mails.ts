import type { Transaction } from "./client";

export interface NewMail {
  readonly id: string;
  readonly accountId: string | null;
  readonly toAddress: string;
  readonly kind: string;
  readonly subject: string;
  readonly body: string;
  readonly trialId?: string;
  /** The account whose own words it holds: it goes with that account, too. */
  readonly authorId?: string;
}

export async function insertMail(tx: Transaction, mail: NewMail): Promise<void> {
  await tx.mail.create({ data: mail });
}

/** The kind of what a lead writes to growers. It stands under "My things" for as long as its account. */
export const LETTER = "lead-message";

/** Mail that a lead sets off: nobody gets it who wants none from leads. */
const LEAD_MAILS = [LETTER, "correction-asked"] as const;
export type LeadMailKind = (typeof LEAD_MAILS)[number];

export function isLeadMail(kind: string): boolean {
  return LEAD_MAILS.some((each) => each === kind);
}

/** `failedStage` of a letter that is never mailed: its addressee reads it under "My things" only. */
export const NOT_MAILED = "not-mailed";

/** Keeps what a lead set off for each of its addressees, and has it mailed to those who want that. */
export async function insertLeadMails(
  tx: Transaction,
  mails: readonly (NewMail & { readonly kind: LeadMailKind; readonly byMail: boolean })[],
): Promise<void> {
  await tx.mail.createMany({
    data: mails.map(({ byMail, ...mail }) => ({ ...mail, failedStage: byMail ? null : NOT_MAILED })),
  });
}

/** Whether an account was sent a mail of this kind since then. */
export async function wasMailedSince(
  tx: Transaction,
  accountId: string,
  kind: LeadMailKind,
  since: Date,
): Promise<boolean> {
  return (await tx.mail.count({ where: { accountId, kind, createdAt: { gte: since } } })) > 0;
}

/** Mails nothing that leads set off to an account and that still waits. */
export async function keepLeadMailsBack(tx: Transaction, accountId: string): Promise<void> {
  await tx.mail.updateMany({
    where: { accountId, kind: { in: [...LEAD_MAILS] }, sentAt: null },
    data: { failedStage: NOT_MAILED },
  });
}

/** How often sending is tried; what then still failed stays, with its reason, for the admin to see. */
export const MAIL_ATTEMPTS = 8;

export interface WaitingMail {
  readonly id: string;
  readonly kind: string;
  readonly accountId: string | null;
  /** Of the trial a letter is about. */
  readonly trialTitle: string | null;
  readonly toAddress: string;
  readonly subject: string;
  readonly body: string;
}

/** The next waiting mail, locked for this transaction; another process takes the one after it. */
export async function takeWaitingMail(
  tx: Transaction,
  except: readonly string[],
): Promise<WaitingMail | null> {
  const rows = await tx.$queryRaw<WaitingMail[]>`
    SELECT mail.id::text, kind, account_id::text AS "accountId", to_address AS "toAddress", subject, body,
      trial.title AS "trialTitle"
    FROM mail LEFT JOIN trial ON trial.id = mail.trial_id
    WHERE sent_at IS NULL AND attempts < ${MAIL_ATTEMPTS} AND NOT (mail.id = ANY (${[...except]}::uuid[]))
      AND failed_stage IS DISTINCT FROM ${NOT_MAILED}
    ORDER BY mail.id LIMIT 1 FOR UPDATE OF mail SKIP LOCKED`;
  return rows[0] ?? null;
}

/** A sent mail keeps no body: it may hold a link that still opens something. A letter is read again, and holds none. */
export async function markMailSent(
  tx: Transaction,
  { id, kind }: Pick<WaitingMail, "id" | "kind">,
): Promise<void> {
  await tx.mail.update({
    where: { id },
    data: {
      sentAt: new Date(),
      ...(kind === LETTER ? {} : { body: "" }),
      failure: null,
      failedStage: null,
      attempts: { increment: 1 },
    },
  });
}

export async function markMailFailed(
  tx: Transaction,
  id: string,
  why: { readonly failure: string; readonly failedStage: string },
): Promise<void> {
  await tx.mail.update({ where: { id }, data: { ...why, attempts: { increment: 1 } } });
}

/** A page of mails, newest first, older than the id `before`. */
export function listMails(tx: Transaction, before: string | undefined, take: number) {
  return tx.mail.findMany({
    where: before ? { id: { lt: before } } : {},
    orderBy: { id: "desc" },
    take,
    select: {
      id: true,
      subject: true,
      body: true,
      createdAt: true,
      sentAt: true,
      attempts: true,
      failure: true,
      failedStage: true,
      account: { select: { name: true } },
    },
  });
}

export interface OutboxState {
  /** Mails that wait to be sent. */
  readonly waiting: number;
  /** Mails given up after so many tries. */
  readonly givenUp: number;
  readonly lastSentAt: Date | null;
}

export async function outboxState(tx: Transaction): Promise<OutboxState> {
  const [state] = await tx.$queryRaw<OutboxState[]>`
    SELECT count(*) FILTER (WHERE sent_at IS NULL AND attempts < ${MAIL_ATTEMPTS})::int AS waiting,
      count(*) FILTER (WHERE sent_at IS NULL AND attempts >= ${MAIL_ATTEMPTS})::int AS "givenUp",
      max(sent_at) AS "lastSentAt"
    FROM mail WHERE failed_stage IS DISTINCT FROM ${NOT_MAILED}`;
  return state!;
}
