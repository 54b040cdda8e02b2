"use server";

import { redirect } from "next/navigation";
import { currentActor } from "@/lib/auth/session";
import { editDraft } from "@/lib/services/lead/draft";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { isUuid } from "@/shared/schemas/id";
import { trialDraftSchema } from "@/shared/schemas/trial-draft";
import { draftOf, refusal, typedValues } from "../../_components/draft-values";

export async function changeDraft(_previous: FormState, form: FormData): Promise<FormState> {
  const values = typedValues(form);
  const trialId = values.trialId ?? "";
  if (!isUuid(trialId)) return { error: "NOT_FOUND" };
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const parsed = trialDraftSchema.safeParse(draftOf(values));
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error), values };
  const draft = { ...parsed.data, trialId };
  const result = await inTransaction((tx) => editDraft(tx, actor, draft, new Date()));
  if (!result.ok) return refusal(result.reason, values);
  redirect(`/lead/trials/${trialId}`);
}
