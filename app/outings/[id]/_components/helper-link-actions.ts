"use server";

import QRCode from "qrcode";
import { requireActor } from "@/lib/auth/session";
import { env } from "@/lib/env";
import { makeHelperLink, takeBackHelperLink } from "@/lib/services/growing/helper-link";
import { inTransaction } from "@/lib/services/run";
import type { FormState } from "@/lib/ui/form-state";
import { isUuid } from "@/shared/schemas/id";

/** Makes a link; `values` hold it and its QR code (an SVG), which nobody can ask for again. */
export async function makeLink(_previous: FormState, form: FormData): Promise<FormState> {
  const outingId = String(form.get("outingId") ?? "");
  const actor = await requireActor(`/outings/${outingId}`);
  if (!isUuid(outingId)) return { error: "NOT_FOUND" };
  const made = await inTransaction((tx) => makeHelperLink(tx, actor, outingId, new Date()));
  if (!made.ok) return { error: made.reason };
  const link = new URL(`/h/${made.value.token}`, env().NEXTAUTH_URL).href;
  const until = made.value.expiresAt.toISOString().slice(0, 10);
  return {
    done: "MADE",
    values: { link, until, qr: await QRCode.toString(link, { type: "svg", margin: 2 }) },
  };
}

export async function takeBackLink(_previous: FormState, form: FormData): Promise<FormState> {
  const outingId = String(form.get("outingId") ?? "");
  const actor = await requireActor(`/outings/${outingId}`);
  if (!isUuid(outingId)) return { error: "NOT_FOUND" };
  const result = await inTransaction((tx) => takeBackHelperLink(tx, actor, outingId, new Date()));
  return result.ok ? { done: "TAKEN_BACK" } : { error: result.reason };
}
