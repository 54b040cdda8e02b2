"use server";

import { redirect } from "next/navigation";
import { currentActor } from "@/lib/auth/session";
import { makeDraft } from "@/lib/services/lead/draft";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { trialDraftSchema } from "@/shared/schemas/trial-draft";
import { draftOf, refusal, typedValues } from "../_components/draft-values";

export async function makeTrial(_previous: FormState, form: FormData): Promise<FormState> {
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const values = typedValues(form);
  const parsed = trialDraftSchema.safeParse(draftOf(values));
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error), values };
  const result = await inTransaction((tx) => makeDraft(tx, actor, parsed.data, new Date()));
  if (!result.ok) return refusal(result.reason, values);
  redirect(`/lead/trials/${result.value.trialId}`);
}
