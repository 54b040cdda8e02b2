import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { getServerSession } from "next-auth/next";
import { cache } from "react";
import { accountStanding } from "@/lib/data/accounts";
import { database, type Transaction } from "@/lib/data/client";
import type { Actor } from "./actor";
import { type Claims, claimsSchema } from "./claims";
import { authOptions } from "./options";

/**
 * Who the claims of a cookie stand for, if they haven't run out and the database still says so: the account exists,
 * isn't disabled, and its session version is the cookie's ("sign out everywhere" and a new password raise it). Nothing else makes
 * an Actor.
 */
export async function actorOfClaims(tx: Transaction, claims: unknown): Promise<Actor | null> {
  const parsed = claimsSchema.safeParse(claims);
  if (!parsed.success || hasRunOut(parsed.data)) return null;
  const account = await accountStanding(tx, parsed.data.accountId);
  if (!account || account.disabledAt || account.sessionVersion !== parsed.data.sessionVersion) return null;
  return {
    accountId: account.id,
    growerId: account.growerId,
    householdId: account.grower.householdId,
    name: account.name,
    isAdmin: account.isAdmin,
    mayLead: account.mayLead,
  };
}

function hasRunOut({ endsAt }: Claims): boolean {
  return endsAt !== undefined && endsAt * 1000 <= Date.now();
}

const currentSession = cache(() => getServerSession(authOptions()));

/** Whoever makes this request, or null. Asked of the database once per request. */
export const currentActor = cache(async (): Promise<Actor | null> => {
  const session = await currentSession();
  return session ? actorOfClaims(database(), session) : null;
});

/** Whether somebody is signed in on a phone they said isn't theirs. */
export async function isOnBorrowedPhone(): Promise<boolean> {
  return (await currentActor()) !== null && (await currentSession())?.endsAt !== undefined;
}

/** Whoever makes this request; somebody not signed in is sent to sign in and then back to `next`. */
export async function requireActor(next?: string): Promise<Actor> {
  const actor = await currentActor();
  if (actor) return actor;
  const back = next ?? (await headers()).get("x-path") ?? "/";
  redirect(`/sign-in?next=${encodeURIComponent(back)}`);
}
