import { type NextRequest, NextResponse } from "next/server";
import { contentSecurityPolicy, securityHeaders } from "@/lib/http/security-headers";

/**
 * Runs before every answer: security headers, a request id for the logs, and the nonce. Next reads the nonce
 * from the request's policy header and gives it to its own scripts. Who may do what is never decided here.
 */
export function proxy(request: NextRequest): NextResponse {
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

  const response = NextResponse.next({ request: { headers } });
  for (const [name, value] of Object.entries(securityHeaders(serving))) response.headers.set(name, value);
  response.headers.set("x-request-id", requestId);
  return response;
}
