import { v7 } from "uuid";
import type { Transaction } from "@/lib/data/client";
import { insertLeadMails, LETTER, wasMailedSince } from "@/lib/data/mails";
import { mailMessages } from "@/lib/ui/messages/en/mails";

const DAY_MS = 24 * 3_600_000;

interface Addressee {
  readonly id: string;
  readonly email: string;
}

/** Says by mail that a box's record should be looked at again, once a day however much is asked. */
export async function mailCorrectionAsked(
  tx: Transaction,
  { id: accountId, email: toAddress }: Addressee,
  { trialId, boxCode }: { readonly trialId: string; readonly boxCode: string },
  now: Date,
): Promise<void> {
  const kind = "correction-asked";
  if (await wasMailedSince(tx, accountId, kind, new Date(now.getTime() - DAY_MS))) return;
  const words = mailMessages.correctionAsked(boxCode);
  await insertLeadMails(tx, [{ ...words, id: v7(), kind, accountId, toAddress, trialId, byMail: true }]);
}

/**
 * Tells an author that their own words or picture were hidden, or can be seen again: a letter that isn't mailed, and
 * that goes with the account of the lead whose words it holds.
 * @param thing `boxCode` null: of a whole set; `text` null: a picture; `reason` null: shown again
 */
export async function tellHiding(
  tx: Transaction,
  { id: accountId, email: toAddress }: Addressee,
  { trialId, leadId }: { readonly trialId: string; readonly leadId: string },
  thing: Parameters<typeof mailMessages.hiding>[0],
): Promise<void> {
  const words = mailMessages.hiding(thing);
  const letter = { ...words, id: v7(), kind: LETTER, accountId, toAddress, trialId, byMail: false } as const;
  await insertLeadMails(tx, [thing.reason === null ? letter : { ...letter, authorId: leadId }]);
}
