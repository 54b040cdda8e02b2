export const BODY_LIMIT_BYTES = 1_000_000;

export type BodyReading =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly reason: "TOO_LARGE" | "SEND_JSON" };

/** Reads a JSON request's text; refuses what is too large as `readBytes` does. */
export async function readJsonText(request: Request, limitBytes = BODY_LIMIT_BYTES): Promise<BodyReading> {
  const type = request.headers.get("content-type") ?? "";
  if (!/^application\/json\b/i.test(type)) return { ok: false, reason: "SEND_JSON" };
  const bytes = await readBytes(request, limitBytes);
  return bytes ? { ok: true, text: bytes.toString("utf8") } : { ok: false, reason: "TOO_LARGE" };
}

/** A request's body; null when it is over the limit by Content-Length, or by what really arrives. */
export async function readBytes(request: Request, limitBytes: number): Promise<Buffer | null> {
  if (Number(request.headers.get("content-length") ?? 0) > limitBytes) return null;
  if (!request.body) return Buffer.alloc(0);
  const chunks: Uint8Array[] = [];
  let received = 0;
  const reader = request.body.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    received += value.byteLength;
    if (received > limitBytes) {
      await reader.cancel();
      return null;
    }
    chunks.push(value);
  }
  return Buffer.concat(chunks);
}

/**
 * Whether a browser proves that the request comes from this site: Sec-Fetch-Site where it is sent, else an
 * Origin equal to the host asked.
 */
export function isSameOrigin(request: Request): boolean {
  const site = request.headers.get("sec-fetch-site");
  if (site) return site === "same-origin";
  const origin = request.headers.get("origin");
  const host = request.headers.get("x-forwarded-host") ?? request.headers.get("host");
  return origin !== null && host !== null && URL.canParse(origin) && new URL(origin).host === host;
}
