import { startHelping } from "@/lib/auth/helper";
import { helperLinkHolds } from "@/lib/services/growing/helper-link";
import { reading } from "@/lib/services/run";

/** Opens a helper link: remembers it in a cookie, so that its secret leaves the address bar. */
export async function GET(_request: Request, { params }: { params: Promise<{ token: string }> }) {
  const { token } = await params;
  const expiresAt = await reading((tx) => helperLinkHolds(tx, token, new Date()));
  if (expiresAt) await startHelping(token, expiresAt);
  return new Response(null, {
    status: 303,
    headers: {
      location: expiresAt ? "/h" : "/h?ended",
      "cache-control": "no-store",
      "referrer-policy": "no-referrer",
    },
  });
}
