import { cookies } from "next/headers";
import { encode } from "next-auth/jwt";
import { env } from "@/lib/env";
import type { Claims } from "./claims";
import { SESSION_SECONDS, sessionCookie } from "./options";

/** Signs this browser in: sets the cookie next-auth would set. For server actions, after the password was right. */
export async function startSession(claims: Claims): Promise<void> {
  const value = await encode({
    token: { ...claims },
    secret: env().NEXTAUTH_SECRET,
    maxAge: SESSION_SECONDS,
  });
  const { name, options } = sessionCookie();
  (await cookies()).set(name, value, { ...options, maxAge: SESSION_SECONDS });
}

/** Signs this browser out. */
export async function endSession(): Promise<void> {
  const { name, options } = sessionCookie();
  (await cookies()).set(name, "", { ...options, maxAge: 0 });
}
