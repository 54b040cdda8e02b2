import { cookies } from "next/headers";
import { cache } from "react";
import { database, type Transaction } from "@/lib/data/client";
import { findHelperLink } from "@/lib/data/helper-links";
import type { Helper, Recorder } from "./actor";
import { tokenHash } from "./codes";
import { hostCookie } from "./cookies";
import { currentActor } from "./session";

const COOKIE = "helper";

/** Whom a helper link lets in: null when it was never made, has run out or was taken back. */
export async function helperOfToken(tx: Transaction, token: string, now: Date): Promise<Helper | null> {
  const link = await findHelperLink(tx, tokenHash(token), now);
  return (
    link && {
      accountId: link.accountId,
      growerId: link.account.growerId,
      onlyOutingId: link.outingId,
      boxIds: link.outing.boxes.map(({ id }) => id),
    }
  );
}

async function openedToken(): Promise<string | undefined> {
  return (await cookies()).get(hostCookie(COOKIE).name)?.value;
}

/** Whom the helper link opened in this browser lets in. Asked of the database once per request. */
export const currentHelper = cache(async (): Promise<Helper | null> => {
  const token = await openedToken();
  return token ? helperOfToken(database(), token, new Date()) : null;
});

/** Remembers an opened link in this browser until `expiresAt`. */
export async function startHelping(token: string, expiresAt: Date): Promise<void> {
  const { name, options } = hostCookie(COOKIE);
  (await cookies()).set(name, token, { ...options, expires: expiresAt });
}

export async function stopHelping(): Promise<void> {
  const { name, options } = hostCookie(COOKIE);
  (await cookies()).set(name, "", { ...options, maxAge: 0 });
}

/** What a record is about: one box, or a set. */
export type RecordSubject = { readonly boxId: string } | { readonly outingId: string };

/**
 * As whom this request may record, by what it is about; or why as nobody. Where a browser holds both a sign-in and
 * a helper link, the link counts for its set and the boxes of it, unless they are one's own.
 */
export async function currentRecorder(): Promise<
  ((subject: RecordSubject) => Recorder) | "SIGN_IN_FIRST" | "HELPER_LINK_ENDED"
> {
  const actor = await currentActor();
  const helper = await currentHelper();
  if (actor && (!helper || helper.accountId === actor.accountId)) return () => actor;
  if (!helper) return (await openedToken()) ? "HELPER_LINK_ENDED" : "SIGN_IN_FIRST";
  return (subject) => (!actor || isAbout(helper, subject) ? helper : actor);
}

function isAbout({ onlyOutingId, boxIds }: Helper, subject: RecordSubject): boolean {
  return "boxId" in subject ? boxIds.includes(subject.boxId) : subject.outingId === onlyOutingId;
}
