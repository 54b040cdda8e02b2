import type { NextRequest } from "next/server";
import NextAuth from "next-auth";
import { authOptions } from "@/lib/auth/options";
import { problem } from "@/lib/http/problem";

const BODY_LIMIT_BYTES = 10_000;

function handler(request: NextRequest, context: { params: Promise<{ nextauth: string[] }> }) {
  return NextAuth(request, context, authOptions());
}

/** next-auth reads the whole body: one of unknown or too great a length never gets there. */
function limitedHandler(request: NextRequest, context: { params: Promise<{ nextauth: string[] }> }) {
  const length = request.headers.get("content-length");
  if (!length || !(Number(length) <= BODY_LIMIT_BYTES)) return problem("TOO_LARGE");
  return handler(request, context);
}

export { handler as GET, limitedHandler as POST };
