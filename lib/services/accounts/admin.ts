import { validate } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { accountStanding, listAccounts, setAccountDisabled, setMayLead } from "@/lib/data/accounts";
import { insertAuditEntry } from "@/lib/data/audit";
import type { Transaction } from "@/lib/data/client";
import { listMails } from "@/lib/data/mails";
import { env } from "@/lib/env";
import { done, type Result, refuse } from "@/lib/errors/result";

const PAGE = 50;

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

/** Accounts by name and standing, oldest first. Addresses are shown to their owners only. */
export async function accountsPage(tx: Transaction, actor: Actor, after: string | undefined) {
  if (!(await isAdmin(tx, actor))) return refuse("NOT_FOUND");
  return done(pageOf(await listAccounts(tx, pageKey(after), PAGE + 1)));
}

/** The demo's outbox with its bodies, newest first. Elsewhere a mail is its addressee's: it opens their account. */
export async function demoMailsPage(tx: Transaction, actor: Actor, before: string | undefined) {
  if (env().GRAINLOT_MODE !== "demo" || !(await isAdmin(tx, actor))) return refuse("NOT_FOUND");
  return done(pageOf(await listMails(tx, pageKey(before), PAGE + 1)));
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
