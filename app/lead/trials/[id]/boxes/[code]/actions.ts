"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { currentActor } from "@/lib/auth/session";
import { askCorrection } from "@/lib/services/lead/corrections";
import { hideThing, showThing } from "@/lib/services/lead/hide";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { correctionSchema, hidingReasonSchema } from "@/shared/schemas/correction";
import { keepableText } from "@/shared/schemas/text";
import { HIDEABLE_KINDS } from "@/shared/vocabulary/desk";

const boxSchema = z.object({ trialId: z.uuid(), code: keepableText("NOT_FOUND").min(1).max(12) });

const pageOf = ({ trialId, code }: z.infer<typeof boxSchema>) =>
  `/lead/trials/${trialId}/boxes/${encodeURIComponent(code)}`;

export async function ask(_previous: FormState, form: FormData): Promise<FormState> {
  const box = boxSchema.safeParse(Object.fromEntries(form));
  if (!box.success) return { error: "NOT_FOUND" };
  const values = { kind: String(form.get("kind") ?? ""), words: String(form.get("words") ?? "") };
  const parsed = correctionSchema.safeParse(values);
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error), values };
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const asked = { ...box.data, correction: parsed.data };
  const result = await inTransaction((tx) => askCorrection(tx, actor, asked, new Date()));
  if (!result.ok) return { error: result.reason, values };
  revalidatePath(pageOf(box.data));
  return { done: "ASKED" };
}

const thingSchema = boxSchema.extend({ kind: z.enum(HIDEABLE_KINDS), id: z.uuid() });

export async function hide(_previous: FormState, form: FormData): Promise<FormState> {
  const thing = thingSchema.safeParse(Object.fromEntries(form));
  if (!thing.success) return { error: "NOT_FOUND" };
  const values = { reason: String(form.get("reason") ?? "") };
  const parsed = z.object({ reason: hidingReasonSchema }).safeParse(values);
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error), values };
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const result = await inTransaction((tx) =>
    hideThing(tx, actor, { ...thing.data, ...parsed.data }, new Date()),
  );
  if (!result.ok) return { error: result.reason, values };
  revalidatePath(pageOf(thing.data));
  return { done: "HIDDEN" };
}

export async function show(_previous: FormState, form: FormData): Promise<FormState> {
  const thing = thingSchema.safeParse(Object.fromEntries(form));
  if (!thing.success) return { error: "NOT_FOUND" };
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const result = await inTransaction((tx) => showThing(tx, actor, thing.data));
  if (!result.ok) return { error: result.reason };
  revalidatePath(pageOf(thing.data));
  return { done: "SHOWN" };
}
