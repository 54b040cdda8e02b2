"use server";

import { redirect } from "next/navigation";
import { currentActor } from "@/lib/auth/session";
import { copyTrial } from "@/lib/services/lead/copy";
import { inTransaction } from "@/lib/services/run";
import { type FormState, SIGNED_OUT } from "@/lib/ui/form-state";

export async function copy(_previous: FormState, form: FormData): Promise<FormState> {
  const trialId = String(form.get("trialId") ?? "");
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const copied = await inTransaction((tx) => copyTrial(tx, actor, trialId, new Date()));
  if (!copied.ok) return { error: copied.reason };
  redirect(`/lead/trials/${copied.value.trialId}`);
}
