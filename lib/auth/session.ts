import { headers } from "next/headers";
import { redirect } from "next/navigation";
import { getServerSession } from "next-auth/next";
import { cache } from "react";
import { accountStanding } from "@/lib/data/accounts";
import { database, type Transaction } from "@/lib/data/client";
import type { Actor } from "./actor";
import { claimsSchema } from "./claims";
import { authOptions } from "./options";

/**
 * Who the claims of a cookie stand for, if the database still says so: the account exists, isn't disabled, and
 * its session version is the cookie's ("sign out everywhere" and a new password raise it). Nothing else makes
 * an Actor.
 */
export async function actorOfClaims(tx: Transaction, claims: unknown): Promise<Actor | null> {
  const parsed = claimsSchema.safeParse(claims);
  if (!parsed.success) return null;
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

/** Whoever makes this request, or null. Asked of the database once per request. */
export const currentActor = cache(async (): Promise<Actor | null> => {
  const session = await getServerSession(authOptions());
  return session ? actorOfClaims(database(), session) : null;
});

/** Whoever makes this request; somebody not signed in is sent to sign in and then back to `next`. */
export async function requireActor(next?: string): Promise<Actor> {
  const actor = await currentActor();
  if (actor) return actor;
  const back = next ?? (await headers()).get("x-path") ?? "/";
  redirect(`/sign-in?next=${encodeURIComponent(back)}`);
}
