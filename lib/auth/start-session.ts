import { cookies } from "next/headers";
import type { Claims } from "./claims";
import { SESSION_SECONDS, sessionCookie } from "./cookies";
import { BORROWED_SECONDS, sessionToken } from "./session-token";

/** Signs this browser in: sets the cookie next-auth would set. For server actions, after the password was right. */
export async function startSession(claims: Claims): Promise<void> {
  const { name, options } = sessionCookie();
  (await cookies()).set(name, await sessionToken(claims), { ...options, maxAge: SESSION_SECONDS });
}

/** Signs in on somebody else's phone: the cookie goes with the browser, and the session ends by itself. */
export async function startBorrowedSession(claims: Claims): Promise<void> {
  const { name, options } = sessionCookie();
  const endsAt = Math.floor(Date.now() / 1000) + BORROWED_SECONDS;
  (await cookies()).set(name, await sessionToken({ ...claims, endsAt }), options);
}

/** Signs this browser out. */
export async function endSession(): Promise<void> {
  const { name, options } = sessionCookie();
  (await cookies()).set(name, "", { ...options, maxAge: 0 });
}
