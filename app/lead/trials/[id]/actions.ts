"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { z } from "zod";
import { requireActor } from "@/lib/auth/session";
import { enqueuePool } from "@/lib/jobs/boss";
import { addArm, removeArm } from "@/lib/services/lead/draft";
import { closeTrial, openTrial } from "@/lib/services/lead/open";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults } from "@/lib/ui/form-state";
import { minimumSchema } from "@/shared/schemas/trial-draft";

const pageOf = (trialId: string) => `/lead/trials/${trialId}`;

const armSchema = z.object({ trialId: z.uuid(), variantId: z.uuid() });

export async function addRecipe(_previous: FormState, form: FormData): Promise<FormState> {
  const parsed = armSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { error: "NOT_FOUND" };
  const actor = await requireActor(pageOf(parsed.data.trialId));
  const result = await inTransaction((tx) => addArm(tx, actor, parsed.data));
  if (!result.ok) return { error: result.reason };
  revalidatePath(pageOf(parsed.data.trialId));
  return { done: "ARM_ADDED" };
}

const removalSchema = z.object({ trialId: z.uuid(), armId: z.uuid() });

export async function takeOutRecipe(_previous: FormState, form: FormData): Promise<FormState> {
  const parsed = removalSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { error: "NOT_FOUND" };
  const actor = await requireActor(pageOf(parsed.data.trialId));
  const result = await inTransaction((tx) => removeArm(tx, actor, parsed.data));
  if (!result.ok) return { error: result.reason };
  revalidatePath(pageOf(parsed.data.trialId));
  return {};
}

const openingSchema = minimumSchema.extend({
  trialId: z.uuid(),
  confirm: z.literal("on", { error: "CONFIRM" }),
});

export async function open(_previous: FormState, form: FormData): Promise<FormState> {
  const { boxesPerCell, growersPerCell, ...rest } = Object.fromEntries(form);
  const values = { boxesPerCell: String(boxesPerCell ?? ""), growersPerCell: String(growersPerCell ?? "") };
  const parsed = openingSchema.safeParse({ ...values, trialId: rest.trialId, confirm: rest.confirm });
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error), values };
  const { trialId, confirm: _confirmed, ...minimum } = parsed.data;
  const actor = await requireActor(pageOf(trialId));
  const result = await inTransaction((tx) => openTrial(tx, actor, { trialId, minimum }, new Date()));
  if (!result.ok) return { error: result.reason, values };
  redirect(pageOf(trialId));
}

const closingSchema = z.object({ trialId: z.uuid(), confirm: z.literal("on", { error: "CONFIRM" }) });

export async function close(_previous: FormState, form: FormData): Promise<FormState> {
  const parsed = closingSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error) };
  const { trialId } = parsed.data;
  const actor = await requireActor(pageOf(trialId));
  const result = await inTransaction((tx) => closeTrial(tx, actor, trialId, new Date()));
  if (!result.ok) return { error: result.reason };
  await enqueuePool(result.value.trialId);
  redirect(pageOf(trialId));
}
