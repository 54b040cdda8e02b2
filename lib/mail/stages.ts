/** Where sending a mail can fail, in the order in which it goes. */
export const MAIL_STAGES = [
  "look-up",
  "connection",
  "tls",
  "sign-in",
  "sender",
  "recipient",
  "message",
] as const;
export type MailStage = (typeof MAIL_STAGES)[number];

/** What nodemailer says of a fault: its own code, the command it had sent, and what the system said of the socket. */
interface MailFault {
  readonly code?: string;
  readonly command?: string;
  readonly syscall?: string;
}

const BY_COMMAND: Readonly<Record<string, MailStage>> = {
  STARTTLS: "tls",
  "MAIL FROM": "sender",
  "RCPT TO": "recipient",
  DATA: "message",
};

/** The stage at which a mail was not taken. */
export function failingStage(fault: unknown): MailStage {
  const { code, command = "", syscall } = fault as MailFault;
  if (code === "EDNS") return "look-up";
  if (code === "EMESSAGE") return "message";
  if (code === "EAUTH" || command.startsWith("AUTH")) return "sign-in";
  // A socket's fault without a system call is one of TLS: a certificate, or no TLS where it was expected.
  if (code === "ETLS" || (code === "ESOCKET" && !syscall)) return "tls";
  return BY_COMMAND[command] ?? "connection";
}

/** The mail server's code alone: its words often repeat the address. */
export function failureCode(fault: unknown): string {
  const { code, responseCode } = fault as { code?: string; responseCode?: number };
  return [code, responseCode].filter(Boolean).join(" ") || "UNKNOWN";
}
