import type { Transaction } from "./client";

export interface NewMail {
  readonly id: string;
  readonly accountId: string | null;
  readonly toAddress: string;
  readonly kind: string;
  readonly subject: string;
  readonly body: string;
}

export async function insertMail(tx: Transaction, mail: NewMail): Promise<void> {
  await tx.mail.create({ data: mail });
}

/** How often sending is tried; what then still failed stays, with its reason, for the admin to see. */
export const MAIL_ATTEMPTS = 8;

export interface WaitingMail {
  readonly id: string;
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
    SELECT id::text, to_address AS "toAddress", subject, body FROM mail
    WHERE sent_at IS NULL AND attempts < ${MAIL_ATTEMPTS} AND NOT (id = ANY (${[...except]}::uuid[]))
    ORDER BY id LIMIT 1 FOR UPDATE SKIP LOCKED`;
  return rows[0] ?? null;
}

/** A sent mail keeps no body: it may hold a link that still opens something. */
export async function markMailSent(tx: Transaction, id: string): Promise<void> {
  await tx.mail.update({
    where: { id },
    data: { sentAt: new Date(), body: "", failure: null, attempts: { increment: 1 } },
  });
}

export async function markMailFailed(tx: Transaction, id: string, failure: string): Promise<void> {
  await tx.mail.update({ where: { id }, data: { failure, attempts: { increment: 1 } } });
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
      account: { select: { name: true } },
    },
  });
}
