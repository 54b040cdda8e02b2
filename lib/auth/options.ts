import type { NextAuthOptions } from "next-auth";
import Credentials from "next-auth/providers/credentials";
import { database } from "@/lib/data/client";
import { env } from "@/lib/env";
import { type Claims, claimsSchema } from "./claims";
import { SESSION_SECONDS, sessionCookie } from "./cookies";
import { askedFrom } from "./request-origin";
import { checkSignIn } from "./sign-in";

declare module "next-auth" {
  interface User extends Claims {}
  interface Session extends Partial<Claims> {}
}

/** next-auth's settings: password sign-in, and a signed and encrypted cookie that carries two claims only. */
export function authOptions(): NextAuthOptions {
  return {
    secret: env().NEXTAUTH_SECRET,
    useSecureCookies: sessionCookie().options.secure,
    session: { strategy: "jwt", maxAge: SESSION_SECONDS },
    pages: { signIn: "/sign-in", error: "/sign-in" },
    cookies: { sessionToken: sessionCookie() },
    providers: [
      Credentials({
        credentials: { email: {}, password: {} },
        async authorize(given, request) {
          const result = await checkSignIn(database(), {
            email: String(given?.email ?? ""),
            password: String(given?.password ?? ""),
            from: askedFrom(new Headers(request.headers)),
          });
          // next-auth hands an error's message to the form as its code.
          if (!result.ok) throw new Error(result.reason);
          return { id: result.value.accountId, ...result.value };
        },
      }),
    ],
    callbacks: {
      // Replaces next-auth's own token: no name and no address in the cookie.
      jwt: ({ token, user }) =>
        user ? { accountId: user.accountId, sessionVersion: user.sessionVersion } : token,
      session: ({ session, token }) => {
        const claims = claimsSchema.safeParse(token);
        return claims.success ? { expires: session.expires, ...claims.data } : { expires: session.expires };
      },
    },
  };
}
