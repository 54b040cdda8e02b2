import { decode, encode } from "next-auth/jwt";
import { env } from "@/lib/env";
import { type Claims, claimsSchema } from "./claims";
import { SESSION_SECONDS } from "./cookies";

/** On somebody else's phone a session lasts this long at most, and no longer than the browser is open. */
export const BORROWED_SECONDS = 2 * 60 * 60;

/** A session older than this is renewed by the next page, so that a phone in use stays signed in. */
const RENEW_AFTER_SECONDS = 24 * 60 * 60;

/** The value of a session's cookie, as next-auth reads it. */
export function sessionToken(claims: Claims): Promise<string> {
  const maxAge = claims.endsAt === undefined ? SESSION_SECONDS : BORROWED_SECONDS;
  return encode({ token: { ...claims }, secret: env().NEXTAUTH_SECRET, maxAge });
}

/**
 * The same session counted from now on, if it is a day old and on its owner's phone; else null. Whether it still
 * holds is not asked: one that was ended stays ended, renewed or not.
 */
export async function renewedToken(token: string, now: Date): Promise<string | null> {
  const held = await decode({ token, secret: env().NEXTAUTH_SECRET }).catch(() => null);
  const claims = claimsSchema.safeParse(held);
  if (!claims.success || claims.data.endsAt !== undefined) return null;
  const ageSeconds = now.getTime() / 1000 - Number(held?.iat);
  return ageSeconds > RENEW_AFTER_SECONDS ? sessionToken(claims.data) : null;
}
