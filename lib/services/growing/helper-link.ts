import { v7 } from "uuid";
import type { Actor } from "@/lib/auth/actor";
import { randomToken, tokenHash } from "@/lib/auth/codes";
import type { Transaction } from "@/lib/data/client";
import {
  findHelperLink,
  type HelperLinkRow,
  holdingLink,
  insertHelperLink,
  revokeLinks,
} from "@/lib/data/helper-links";
import { findOwnOuting } from "@/lib/data/outings";
import { done, type Result, refuse } from "@/lib/errors/result";

/** How long a helper link holds. */
export const HELPER_LINK_DAYS = 14;

/**
 * Makes a link with which somebody without an account records one set of the actor's. A link made for the set
 * earlier ends, so that there is one to take back.
 * @returns the secret of the link; only its hash is kept
 */
export async function makeHelperLink(
  tx: Transaction,
  actor: Actor,
  outingId: string,
  now: Date,
): Promise<Result<{ readonly token: string; readonly expiresAt: Date }, "NOT_FOUND" | "NOT_DRAWN_YET">> {
  const outing = await findOwnOuting(tx, actor.growerId, outingId);
  if (!outing) return refuse("NOT_FOUND");
  if (outing.status !== "drawn") return refuse("NOT_DRAWN_YET");
  await revokeLinks(tx, actor.accountId, outingId, now);
  const token = randomToken();
  const expiresAt = new Date(now.getTime() + HELPER_LINK_DAYS * 24 * 3_600_000);
  await insertHelperLink(tx, {
    id: v7(),
    accountId: actor.accountId,
    outingId,
    tokenHash: tokenHash(token),
    expiresAt,
  });
  return done({ token, expiresAt });
}

/** Ends the link to a set of the actor's, at once. */
export async function takeBackHelperLink(
  tx: Transaction,
  actor: Actor,
  outingId: string,
  now: Date,
): Promise<Result<null, "NOT_FOUND">> {
  const ended = await revokeLinks(tx, actor.accountId, outingId, now);
  return ended > 0 ? done(null) : refuse("NOT_FOUND");
}

/** The link to a set of the actor's that holds; null when there is none. */
export function helperLinkOf(
  tx: Transaction,
  actor: Actor,
  outingId: string,
  now: Date,
): Promise<HelperLinkRow | null> {
  return holdingLink(tx, actor.accountId, outingId, now);
}

/** Until when a link opens its set; null when it never did or does no more. */
export async function helperLinkHolds(tx: Transaction, token: string, now: Date): Promise<Date | null> {
  return (await findHelperLink(tx, tokenHash(token), now))?.expiresAt ?? null;
}
