/**
 * The network address a request came from, for limits only. The last entry of X-Forwarded-For is the one the
 * nearest proxy (or Next's own server, when there is none) wrote; the earlier ones are the client's own claim.
 */
export function askedFrom(headers: Headers): string {
  const forwarded = headers.get("x-forwarded-for") ?? "";
  return forwarded.split(",").at(-1)?.trim() || "unknown";
}
