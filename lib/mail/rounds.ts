import { log } from "@/lib/log";
import { sendWaitingMails } from "./send";

const EVERY_MS = 60_000;

/** Sends what is left in the outbox once a minute: after a crash, or while the mail server was away. */
export function startMailRounds(): void {
  setInterval(() => {
    sendWaitingMails().catch((fault) => log.error({ err: fault }, "the outbox could not be read"));
  }, EVERY_MS).unref();
}
