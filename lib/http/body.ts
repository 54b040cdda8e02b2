export const BODY_LIMIT_BYTES = 1_000_000;

export type BodyReading =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly reason: "TOO_LARGE" | "SEND_JSON" };

/** Reads a JSON request's text, refusing by Content-Length first and by counting what really arrives. */
export async function readJsonText(request: Request, limitBytes = BODY_LIMIT_BYTES): Promise<BodyReading> {
  const type = request.headers.get("content-type") ?? "";
  if (!/^application\/json\b/i.test(type)) return { ok: false, reason: "SEND_JSON" };
  if (Number(request.headers.get("content-length") ?? 0) > limitBytes)
    return { ok: false, reason: "TOO_LARGE" };
  if (!request.body) return { ok: true, text: "" };
  const chunks: Uint8Array[] = [];
  let received = 0;
  const reader = request.body.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    received += value.byteLength;
    if (received > limitBytes) {
      await reader.cancel();
      return { ok: false, reason: "TOO_LARGE" };
    }
    chunks.push(value);
  }
  return { ok: true, text: Buffer.concat(chunks).toString("utf8") };
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
