"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { currentActor } from "@/lib/auth/session";
import { pauseTrial, resumeTrial } from "@/lib/services/lead/pause";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { isUuid } from "@/shared/schemas/id";
import { PAUSE_REASONS } from "@/shared/vocabulary/desk";

const reasonSchema = z.object({ reason: z.enum(PAUSE_REASONS, { error: "pause.reason" }) });

export async function pause(_previous: FormState, form: FormData): Promise<FormState> {
  const trialId = String(form.get("trialId") ?? "");
  if (!isUuid(trialId)) return { error: "NOT_FOUND" };
  const parsed = reasonSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error) };
  const page = `/lead/trials/${trialId}/pause`;
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const paused = await inTransaction((tx) => pauseTrial(tx, actor, { trialId, ...parsed.data }, new Date()));
  if (!paused.ok) return { error: paused.reason };
  revalidatePath(page);
  return { done: "PAUSED" };
}

export async function resume(_previous: FormState, form: FormData): Promise<FormState> {
  const trialId = String(form.get("trialId") ?? "");
  if (!isUuid(trialId)) return { error: "NOT_FOUND" };
  const page = `/lead/trials/${trialId}/pause`;
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const resumed = await inTransaction((tx) => resumeTrial(tx, actor, trialId, new Date()));
  if (!resumed.ok) return { error: resumed.reason };
  revalidatePath(page);
  return { done: "RESUMED" };
}
