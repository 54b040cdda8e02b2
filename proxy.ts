import { type NextRequest, NextResponse } from "next/server";
import { SESSION_SECONDS, sessionCookie } from "@/lib/auth/cookies";
import { renewedToken } from "@/lib/auth/session-token";
import { contentSecurityPolicy, securityHeaders } from "@/lib/http/security-headers";

/**
 * Runs before every answer: security headers, a request id for the logs, and the nonce. Next reads the nonce
 * from the request's policy header and gives it to its own scripts. Who may do what is never decided here; a phone
 * in use only stays signed in.
 */
export async function proxy(request: NextRequest): Promise<NextResponse> {
  const serving = {
    nonce: Buffer.from(crypto.getRandomValues(new Uint8Array(16))).toString("base64"),
    development: process.env.NODE_ENV === "development",
    overTls: process.env.NEXTAUTH_URL?.startsWith("https://") ?? false,
  };
  const requestId = crypto.randomUUID();

  const headers = new Headers(request.headers);
  headers.set("content-security-policy", contentSecurityPolicy(serving));
  headers.set("x-request-id", requestId);
  headers.set("x-path", request.nextUrl.pathname + request.nextUrl.search);

  // No page stands at the second address, so that there is an answer as for any other unknown one. Not a rewrite: where
  // this server's own address is 127.0.0.1, Next takes it for another's and fetches the page from itself over HTTP.
  const response = isReadable(request.nextUrl.pathname)
    ? NextResponse.next({ request: { headers } })
    : NextResponse.redirect(new URL("/unreadable", request.url));
  for (const [name, value] of Object.entries(securityHeaders(serving))) response.headers.set(name, value);
  response.headers.set("x-request-id", requestId);
  await renewSession(request, response);
  return response;
}

/** Whether an address is text that the database could hold: UTF-8 without the character NUL. */
function isReadable(path: string): boolean {
  try {
    return !decodeURIComponent(path).includes("\0");
  } catch {
    return false;
  }
}

/** Only with a page: a form's answer may be what signs out. */
async function renewSession(request: NextRequest, response: NextResponse): Promise<void> {
  if (request.method !== "GET") return;
  const { name, options } = sessionCookie();
  const held = request.cookies.get(name)?.value;
  const renewed = held && (await renewedToken(held, new Date()));
  if (renewed) response.cookies.set(name, renewed, { ...options, maxAge: SESSION_SECONDS });
}
