import { validate } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { accountStanding, listAccounts, setAccountDisabled, setMayLead } from "@/lib/data/accounts";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { listMails, MAIL_ATTEMPTS, NOT_MAILED } from "@/lib/data/mails";
import { env } from "@/lib/env";
import { done, type Result, refuse } from "@/lib/errors/result";
import { log } from "@/lib/log";
import { sendNow } from "@/lib/mail/send";
import { MAIL_STAGES, type MailStage } from "@/lib/mail/stages";
import { inTransaction } from "@/lib/services/run";

const PAGE = 50;
const SEARCH_MAX_LENGTH = 200;

export interface Page<Row> {
  readonly rows: readonly Row[];
  /** Key of the next page, or null on the last. */
  readonly next: string | null;
}

/** A page's key as it came in an address; anything that isn't one asks for the first page. */
function pageKey(asked: string | undefined): string | undefined {
  return asked && validate(asked) ? asked : undefined;
}

function pageOf<Row extends { id: string }>(found: readonly Row[]): Page<Row> {
  const rows = found.slice(0, PAGE);
  return { rows, next: found.length > PAGE ? (rows.at(-1)?.id ?? null) : null };
}

export type AccountRow = Awaited<ReturnType<typeof listAccounts>>[number];

/** Asked again in the transaction: an admin may have been disabled a moment ago. */
async function isAdmin(tx: Transaction, actor: Actor): Promise<boolean> {
  const standing = await accountStanding(tx, actor.accountId);
  return Boolean(standing?.isAdmin && !standing.disabledAt);
}

/**
 * Accounts by name and standing, oldest first. Addresses are shown to their owners only: one can be searched for, whole.
 * @param search part of a name, or an address; empty for all
 */
export async function accountsPage(tx: Transaction, actor: Actor, after: string | undefined, search = "") {
  if (!(await isAdmin(tx, actor))) return refuse("NOT_FOUND");
  const asked = { after: pageKey(after), search: search.trim().slice(0, SEARCH_MAX_LENGTH) };
  return done(pageOf(await listAccounts(tx, { ...asked, take: PAGE + 1 })));
}

/** How a mail stands. `kept`: its addressee reads it in Grainlot only. */
export type MailState = "sent" | "waiting" | "given-up" | "kept";

/**
 * The outbox, newest first: what became of each mail, and where sending failed. Bodies stand in the demo's only:
 * elsewhere a mail is its addressee's, as it may open their account.
 */
export async function mailsPage(tx: Transaction, actor: Actor, before: string | undefined) {
  if (!(await isAdmin(tx, actor))) return refuse("NOT_FOUND");
  const isDemo = env().GRAINLOT_MODE === "demo";
  const { rows, next } = pageOf(await listMails(tx, pageKey(before), PAGE + 1));
  return done({
    rows: rows.map(({ body, failedStage, ...mail }) => ({
      ...mail,
      body: isDemo ? body : null,
      state: mailState({ ...mail, failedStage }),
      failedStage: MAIL_STAGES.find((stage) => stage === failedStage) ?? null,
    })),
    next,
  });
}

function mailState(mail: { sentAt: Date | null; attempts: number; failedStage: string | null }): MailState {
  if (mail.sentAt) return "sent";
  if (mail.failedStage === NOT_MAILED) return "kept";
  return mail.attempts < MAIL_ATTEMPTS ? "waiting" : "given-up";
}

/** Whether the actor may see what only admins see. */
export function mayAdminister(tx: Transaction, actor: Actor): Promise<boolean> {
  return isAdmin(tx, actor);
}

/** Sends a test message by the server's own settings, at once, and says where it failed if it did. */
export async function sendTestMail(
  actor: Actor,
  mail: { readonly to: string; readonly subject: string; readonly text: string },
): Promise<Result<null, "NOT_FOUND" | "NO_MAIL_SERVER" | MailStage>> {
  const allowed = await inTransaction<null, "NOT_FOUND" | "NO_MAIL_SERVER">(async (tx) => {
    if (!(await isAdmin(tx, actor))) return refuse("NOT_FOUND");
    if (!env().SMTP_URL) return refuse("NO_MAIL_SERVER");
    await audit(tx, actor, "mail.tested", actor.growerId);
    return done(null);
  });
  if (!allowed.ok) return allowed;
  const failed = await sendNow(mail);
  if (!failed) return done(null);
  log.warn(failed, "a test message was not sent");
  return refuse(failed.stage);
}

/** Lets an account sign in or not; disabling ends its sessions at once. */
export async function allowSignIn(
  tx: Transaction,
  actor: Actor,
  change: { accountId: string; allowed: boolean },
): Promise<Result<null, "NOT_FOUND" | "NOT_YOURSELF">> {
  if (!(await isAdmin(tx, actor))) return refuse("NOT_FOUND");
  if (change.accountId === actor.accountId) return refuse("NOT_YOURSELF");
  const target = await accountStanding(tx, change.accountId);
  if (!target) return refuse("NOT_FOUND");
  await setAccountDisabled(tx, target.id, !change.allowed);
  await audit(tx, actor, change.allowed ? "account.enabled" : "account.disabled", target.growerId);
  return done(null);
}

/** Lets an account make trials of its own or not; trials it already leads stay its own. */
export async function allowLeading(
  tx: Transaction,
  actor: Actor,
  change: { accountId: string; allowed: boolean },
): Promise<Result<null, "NOT_FOUND">> {
  if (!(await isAdmin(tx, actor))) return refuse("NOT_FOUND");
  const target = await accountStanding(tx, change.accountId);
  if (!target) return refuse("NOT_FOUND");
  await setMayLead(tx, target.id, change.allowed);
  await audit(tx, actor, change.allowed ? "lead.granted" : "lead.revoked", target.growerId);
  return done(null);
}

function audit(tx: Transaction, actor: Actor, action: string, subjectId: string): Promise<void> {
  return insertAuditEntry(tx, { growerId: actor.growerId, action, subjectId });
}
