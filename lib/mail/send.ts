import { createTransport, type Transporter } from "nodemailer";
import { transaction } from "@/lib/data/client";
import { markMailFailed, markMailSent, takeWaitingMail } from "@/lib/data/mails";
import { env } from "@/lib/env";
import { log } from "@/lib/log";
import { outgoing } from "./outgoing";
import { failingStage, failureCode, type MailStage } from "./stages";

/** What sending needs of a mail server. */
export type MailServer = Pick<Transporter, "sendMail">;

let smtp: MailServer | undefined;

function smtpServer(): MailServer {
  smtp ??= createTransport({
    url: env().SMTP_URL,
    connectionTimeout: 5_000,
    greetingTimeout: 5_000,
    socketTimeout: 8_000,
  });
  return smtp;
}

/**
 * Sends what waits in the outbox, each mail in a transaction of its own and tried once per call. The demo sends
 * nothing: its mails stay where its admin reads them.
 */
export async function sendWaitingMails(server?: MailServer): Promise<{ sent: number; failed: number }> {
  if (env().GRAINLOT_MODE === "demo") return { sent: 0, failed: 0 };
  const tried: string[] = [];
  let sent = 0;
  while (await sendNext(server ?? smtpServer(), tried, () => sent++)) {}
  return { sent, failed: tried.length - sent };
}

/** Sends one mail at once, in the demo too, where a mail server is named; null when it was taken. */
export async function sendNow(
  mail: { readonly to: string; readonly subject: string; readonly text: string },
  server?: MailServer,
): Promise<{ readonly stage: MailStage; readonly code: string } | null> {
  try {
    await (server ?? smtpServer()).sendMail({ from: env().MAIL_FROM, ...mail });
    return null;
  } catch (fault) {
    return { stage: failingStage(fault), code: failureCode(fault) };
  }
}

/** Tries one waiting mail not yet tried; false when none is left. */
function sendNext(server: MailServer, tried: string[], onSent: () => void): Promise<boolean> {
  return transaction(async (tx) => {
    const mail = await takeWaitingMail(tx, tried);
    if (!mail) return false;
    tried.push(mail.id);
    try {
      await server.sendMail({ from: env().MAIL_FROM, to: mail.toAddress, ...outgoing(mail) });
      await markMailSent(tx, mail);
      onSent();
    } catch (fault) {
      const reason = failureCode(fault);
      log.warn({ mailId: mail.id, reason }, "a mail was not sent");
      await markMailFailed(tx, mail.id, { failure: reason, failedStage: failingStage(fault) });
    }
    return true;
  });
}
