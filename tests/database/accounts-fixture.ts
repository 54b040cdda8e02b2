import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import type { Claims } from "@/lib/auth/claims";
import { hashPassword } from "@/lib/auth/passwords";
import { actorOfClaims } from "@/lib/auth/session";
import type { Database } from "@/lib/data/client";
import { log } from "@/lib/log";

log.level = "silent";

/** Invented. */
export const PASSWORD = "heron mill frost stubble";

let addresses = 0;

/** A network address not used before in this file, so that limits per address don't meet other tests. */
export function newAddress(): string {
  addresses++;
  return `2001:db8::${addresses.toString(16)}`;
}

export interface Member {
  readonly actor: Actor;
  readonly claims: Claims;
  readonly email: string;
}

/** An invented person with a real password hash, in a household of their own. */
export async function newMember(
  db: Database,
  name: string,
  rights: { isAdmin?: boolean; mayLead?: boolean } = {},
): Promise<Member> {
  const [accountId, growerId, householdId] = [v7(), v7(), v7()];
  const email = `${name.toLowerCase()}.${accountId}@example.org`;
  await db.household.create({ data: { id: householdId, joinCode: v7() } });
  await db.grower.create({ data: { id: growerId, householdId } });
  const passwordHash = await hashPassword(PASSWORD);
  await db.account.create({ data: { id: accountId, email, name, passwordHash, growerId, ...rights } });
  const claims = { accountId, sessionVersion: 1 };
  const actor = await actorOfClaims(db, claims);
  if (!actor) throw new Error("A new account's claims must hold.");
  return { actor, claims, email };
}
