import { v7 } from "uuid";
import type { Transaction } from "@/lib/data/client";
import { insertMail } from "@/lib/data/mails";
import { env } from "@/lib/env";
import { mailMessages } from "@/lib/ui/messages/en/mails";

export type MailContent =
  | { kind: "reset"; token: string }
  | { kind: "password-changed" }
  /** Somebody made them a further lead of a trial. */
  | { kind: "lead-added"; trialId: string; title: string }
  /** A seat for somebody who waited for it. */
  | { kind: "place-free"; trialId: string; title: string; joinCode: string; region: string };

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
    ...("trialId" in content ? { trialId: content.trialId } : {}),
    ...words(to, content),
  });
}

function words(to: Recipient, content: MailContent): { subject: string; body: string } {
  const home = env().NEXTAUTH_URL;
  if (content.kind === "password-changed") {
    return mailMessages.passwordChanged(to.name, new URL("/forgot-password", home).href);
  }
  if (content.kind === "lead-added") {
    return mailMessages.leadAdded(
      to.name,
      content.title,
      new URL(`/lead/trials/${content.trialId}`, home).href,
    );
  }
  if (content.kind === "place-free") {
    const link = new URL(`/join/${encodeURIComponent(content.joinCode)}`, home);
    return mailMessages.placeFree(to.name, content.title, content.region, link.href);
  }
  const link = new URL("/reset-password", home);
  link.searchParams.set("token", content.token);
  return mailMessages.reset(to.name, link.href);
}
