import { v7 } from "uuid";
import type { Transaction } from "@/lib/data/client";
import { insertMail } from "@/lib/data/mails";
import { env } from "@/lib/env";
import { mailMessages } from "@/lib/ui/messages/en/mails";

export type MailContent = { kind: "reset"; token: string } | { kind: "password-changed" };

export interface Recipient {
  readonly id: string;
  readonly name: string;
  readonly email: string;
}

/** Writes a mail into the outbox, in the transaction of what it tells of: both are kept or neither. */
export async function enqueueMail(tx: Transaction, to: Recipient, content: MailContent): Promise<void> {
  await insertMail(tx, {
    id: v7(),
    accountId: to.id,
    toAddress: to.email,
    kind: content.kind,
    ...words(to, content),
  });
}

function words(to: Recipient, content: MailContent): { subject: string; body: string } {
  const home = env().NEXTAUTH_URL;
  if (content.kind === "password-changed") {
    return mailMessages.passwordChanged(to.name, new URL("/forgot-password", home).href);
  }
  const link = new URL("/reset-password", home);
  link.searchParams.set("token", content.token);
  return mailMessages.reset(to.name, link.href);
}
