import { env } from "@/lib/env";

/** A grower's own phone in the woods stays signed in while it is used; "sign out everywhere" ends it at once. */
export const SESSION_SECONDS = 180 * 24 * 60 * 60;

/**
 * A cookie that no script reads. Over TLS its name starts with `__Host-`, which binds it to this very host and every
 * path; browsers refuse such a name without TLS.
 */
export function hostCookie(name: "session" | "helper") {
  const secure = env().NEXTAUTH_URL.startsWith("https://");
  return {
    name: `${secure ? "__Host-" : ""}grainlot.${name}`,
    options: { httpOnly: true, sameSite: "lax", path: "/", secure },
  } as const;
}

export const sessionCookie = () => hostCookie("session");
