import type { Actor } from "@/lib/auth/actor";
import type { Claims } from "@/lib/auth/claims";
import { withinLimits } from "@/lib/auth/limits";
import { passwordFault } from "@/lib/auth/password-strength";
import { hashPassword, passwordMatches } from "@/lib/auth/passwords";
import { endSessions, ownAccount, setAccountName, setPasswordHash } from "@/lib/data/accounts";
import type { Transaction } from "@/lib/data/client";
import { done, type Result, refuse } from "@/lib/errors/result";
import { enqueueMail } from "@/lib/mail/enqueue";

export interface OwnSettings {
  readonly name: string;
  readonly email: string;
  /** Lets a second adult of the same home sign up into it. */
  readonly householdCode: string;
  readonly householdAdults: number;
  /** Whether letters from leads are mailed, too. */
  readonly lettersByMail: boolean;
}

export async function ownSettings(tx: Transaction, actor: Actor): Promise<OwnSettings> {
  const account = await ownAccount(tx, actor.accountId);
  const { joinCode, _count } = account.grower.household;
  return {
    name: account.name,
    email: account.email,
    householdCode: joinCode,
    householdAdults: _count.growers,
    lettersByMail: !account.leadMailsOff,
  };
}

export async function renameAccount(
  tx: Transaction,
  actor: Actor,
  name: string,
): Promise<Result<null, never>> {
  await setAccountName(tx, actor.accountId, name);
  return done(null);
}

/** Ends every session of the account, this one too. */
export async function signOutEverywhere(tx: Transaction, actor: Actor): Promise<Result<null, never>> {
  await endSessions(tx, actor.accountId);
  return done(null);
}

/** Whether it is really them, asked again before what can't be undone. */
export async function confirmPassword(
  tx: Transaction,
  actor: Actor,
  password: string,
): Promise<Result<null, "TOO_MANY_REQUESTS" | "WRONG_PASSWORD">> {
  if (!(await withinLimits({ confirm: actor.accountId }))) return refuse("TOO_MANY_REQUESTS");
  const { passwordHash } = await ownAccount(tx, actor.accountId);
  return (await passwordMatches(passwordHash, password)) ? done(null) : refuse("WRONG_PASSWORD");
}

/** Sets a new password and ends every session; the claims are for a new one here. */
export async function changePassword(
  tx: Transaction,
  actor: Actor,
  given: { current: string; password: string },
): Promise<
  Result<Claims, "TOO_MANY_REQUESTS" | "WRONG_PASSWORD" | NonNullable<ReturnType<typeof passwordFault>>>
> {
  const confirmed = await confirmPassword(tx, actor, given.current);
  if (!confirmed.ok) return confirmed;
  const account = await ownAccount(tx, actor.accountId);
  const fault = passwordFault(given.password, [account.name, account.email]);
  if (fault) return refuse(fault);
  const sessionVersion = await setPasswordHash(tx, account.id, await hashPassword(given.password));
  await enqueueMail(tx, account, { kind: "password-changed" });
  return done({ accountId: account.id, sessionVersion });
}
