import type { Transaction } from "./client";
import { LETTER } from "./mails";

/** Somebody a letter goes to. */
export interface LetterReader {
  readonly accountId: string;
  readonly email: string;
  /** Whether it is mailed, too. */
  readonly byMail: boolean;
}

/** Everyone of these households who takes part in the trial and has an account. */
export function readersOf(
  tx: Transaction,
  trialId: string,
  enrolmentIds: readonly string[],
): Promise<LetterReader[]> {
  return tx.$queryRaw<LetterReader[]>`
    SELECT account.id::text AS "accountId", account.email,
      NOT account.lead_mails_off AND account.disabled_at IS NULL AS "byMail"
    FROM enrolment JOIN grower ON grower.household_id = enrolment.household_id
    JOIN agreement ON agreement.grower_id = grower.id AND agreement.trial_id = enrolment.trial_id
    JOIN account ON account.grower_id = grower.id
    WHERE enrolment.trial_id = ${trialId}::uuid AND enrolment.id = ANY (${[...enrolmentIds]}::uuid[])
    GROUP BY account.id ORDER BY account.id`;
}

/** A letter as it was sent, in the trial's log. */
export interface SentLetter {
  readonly id: string;
  readonly audience: string;
  readonly subject: string;
  readonly body: string;
  readonly recipients: number;
  readonly sentAt: Date;
}

/** Keeps a letter in its trial's log; false when it is there already. */
export async function insertLetter(
  tx: Transaction,
  letter: SentLetter & { readonly trialId: string; readonly accountId: string },
): Promise<boolean> {
  const { count } = await tx.leadMessage.createMany({ data: [letter], skipDuplicates: true });
  return count === 1;
}

export function countLettersSince(tx: Transaction, trialId: string, since: Date): Promise<number> {
  return tx.leadMessage.count({ where: { trialId, sentAt: { gte: since } } });
}

/** A trial's letters, the latest first. */
export function lettersOf(
  tx: Transaction,
  trialId: string,
  { skip, take }: { readonly skip: number; readonly take: number },
): Promise<SentLetter[]> {
  return tx.leadMessage.findMany({
    where: { trialId },
    omit: { trialId: true, accountId: true },
    orderBy: [{ sentAt: "desc" }, { id: "desc" }],
    skip,
    take,
  });
}

/** Takes the letters that an account sent out of their trials' logs, and back from everyone who has them here. */
export async function deleteLettersBy(tx: Transaction, accountId: string): Promise<void> {
  await tx.$executeRaw`
    DELETE FROM mail USING lead_message sent
    WHERE sent.account_id = ${accountId}::uuid AND mail.kind = ${LETTER} AND mail.trial_id = sent.trial_id
      AND mail.subject = sent.subject AND mail.body = sent.body`;
  await tx.leadMessage.deleteMany({ where: { accountId } });
}
