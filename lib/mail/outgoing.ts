import { isLeadMail, type WaitingMail } from "@/lib/data/mails";
import { env } from "@/lib/env";
import { mailMessages } from "@/lib/ui/messages/en/mails";
import { unsubscribeToken } from "./unsubscribe";

export interface OutgoingMail {
  readonly subject: string;
  readonly text: string;
  readonly headers?: Readonly<Record<string, string>>;
}

/** A waiting mail as it goes out. What a lead set off says so, and how to get no more of it, in words and by RFC 8058. */
export function outgoing({ kind, accountId, subject, body, trialTitle }: WaitingMail): OutgoingMail {
  if (!isLeadMail(kind) || accountId === null) return { subject, text: body };
  const home = env().NEXTAUTH_URL;
  const stop = new URL(`/unsubscribe/${unsubscribeToken(accountId)}`, home).href;
  const foot = mailMessages.letterFoot({ trialTitle, read: new URL("/my-things", home).href, stop });
  return {
    subject,
    text: `${body}\n\n${foot}`,
    headers: {
      "List-Unsubscribe": `<${stop}>`,
      "List-Unsubscribe-Post": "List-Unsubscribe=One-Click",
    },
  };
}
