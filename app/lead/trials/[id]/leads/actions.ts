"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { z } from "zod";
import { currentActor } from "@/lib/auth/session";
import { addLead, stepBack } from "@/lib/services/lead/co-leads";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { isUuid } from "@/shared/schemas/id";

const emailSchema = z.object({
  email: z
    .string()
    .trim()
    .max(254, { error: "lead.email" })
    .pipe(z.email({ error: "lead.email" })),
});

export async function add(_previous: FormState, form: FormData): Promise<FormState> {
  const trialId = String(form.get("trialId") ?? "");
  if (!isUuid(trialId)) return { error: "NOT_FOUND" };
  const values = { email: String(form.get("email") ?? "") };
  const parsed = emailSchema.safeParse(values);
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error), values };
  const page = `/lead/trials/${trialId}/leads`;
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const added = await inTransaction((tx) => addLead(tx, actor, { trialId, ...parsed.data }));
  if (!added.ok) return { error: added.reason, values };
  revalidatePath(page);
  return { done: "LEAD_ADDED" };
}

const confirmedSchema = z.object({ confirm: z.literal("on", { error: "CONFIRM" }) });

export async function leaveTrial(_previous: FormState, form: FormData): Promise<FormState> {
  const trialId = String(form.get("trialId") ?? "");
  if (!isUuid(trialId)) return { error: "NOT_FOUND" };
  const parsed = confirmedSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { error: "CONFIRM", fields: fieldFaults(parsed.error) };
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const left = await inTransaction((tx) => stepBack(tx, actor, trialId));
  if (!left.ok) return { error: left.reason };
  redirect("/lead");
}
