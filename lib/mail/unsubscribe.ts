import { createHmac, timingSafeEqual } from "node:crypto";
import { env } from "@/lib/env";
import { isUuid } from "@/shared/schemas/id";

/** The one thing such a link can do. It names the account, signs nobody in and doesn't expire. */
const PURPOSE = "grainlot: no letters from leads by mail";

function signature(accountId: string): Buffer {
  return createHmac("sha256", env().NEXTAUTH_SECRET).update(`${PURPOSE}\n${accountId}`).digest();
}

/** What a mailed link carries to stop letters from leads to an account. */
export function unsubscribeToken(accountId: string): string {
  return `${accountId}.${signature(accountId).toString("base64url")}`;
}

/** The account a token was made for, or null when this server didn't make it. */
export function accountOfToken(token: string): string | null {
  const [accountId, given, ...more] = token.split(".");
  if (!isUuid(accountId) || given === undefined || more.length > 0) return null;
  const sent = Buffer.from(given, "base64url");
  const own = signature(accountId.toLowerCase());
  return sent.length === own.length && timingSafeEqual(sent, own) ? accountId.toLowerCase() : null;
}
