import { NextResponse } from "next/server";
import { problem } from "@/lib/http/problem";
import { stopLettersByToken } from "@/lib/services/accounts/letters-by-mail";
import { inTransaction } from "@/lib/services/run";

interface Context {
  params: Promise<{ token: string }>;
}

/** One click in a mail program (RFC 8058). The token alone may do it: such a request carries no cookie. */
export async function POST(_request: Request, { params }: Context): Promise<Response> {
  const { token } = await params;
  const stopped = await inTransaction((tx) => stopLettersByToken(tx, token));
  return stopped.ok ? new Response(null, { status: 204 }) : problem(stopped.reason);
}

/** Somebody opened the link; only the button there changes anything, as programs open links by themselves. */
export async function GET(_request: Request, { params }: Context): Promise<Response> {
  const { token } = await params;
  const location = `/unsubscribe?token=${encodeURIComponent(token)}`;
  return new NextResponse(null, { status: 303, headers: { location } });
}
