"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { currentActor } from "@/lib/auth/session";
import { leaveTrial, stepBack } from "@/lib/services/growing/leave-trial";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { keepableText } from "@/shared/schemas/text";

const formSchema = z.object({ trialId: z.uuid(), joinCode: keepableText("NOT_FOUND").min(1).max(60) });
const leavingSchema = formSchema.extend({ confirm: z.literal("on", { error: "CONFIRM" }) });

const pageOf = (joinCode: string) => `/join/${encodeURIComponent(joinCode)}`;

export async function leave(_previous: FormState, form: FormData): Promise<FormState> {
  const parsed = leavingSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error) };
  const { trialId, joinCode } = parsed.data;
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const left = await inTransaction((tx) => leaveTrial(tx, actor, trialId));
  if (!left.ok) return { error: left.reason };
  revalidatePath(pageOf(joinCode));
  return {};
}

export async function stopWaiting(_previous: FormState, form: FormData): Promise<FormState> {
  const parsed = formSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { error: "NOT_FOUND" };
  const { trialId, joinCode } = parsed.data;
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const stepped = await inTransaction((tx) => stepBack(tx, actor, trialId));
  if (!stepped.ok) return { error: stepped.reason };
  revalidatePath(pageOf(joinCode));
  return {};
}
