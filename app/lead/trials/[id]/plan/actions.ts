"use server";

import { redirect } from "next/navigation";
import { currentActor } from "@/lib/auth/session";
import { saveChoices } from "@/lib/services/lead/choices";
import { leadTrialView } from "@/lib/services/lead/read";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { isUuid } from "@/shared/schemas/id";
import { planChoicesSchema } from "@/shared/schemas/plan";
import { type ChoiceValues, FIELDS, typedChoices } from "./_components/choices-values";

export async function keepChoices(_previous: FormState, form: FormData): Promise<FormState> {
  const trialId = String(form.get("trialId") ?? "");
  if (!isUuid(trialId)) return { error: "NOT_FOUND" };
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const values = Object.fromEntries(
    FIELDS.map((field) => [field, form.getAll(field).map(String).join(" ")]),
  ) as ChoiceValues;
  const typed = planChoicesSchema.safeParse(typedChoices(values, null));
  if (!typed.success) return { error: "INVALID", fields: fieldFaults(typed.error), values };
  const result = await inTransaction(async (tx) => {
    const view = await leadTrialView(tx, actor, trialId);
    if (!view.ok) return view;
    const sampleSize = view.value.trial.choices?.sampleSize ?? null;
    return saveChoices(tx, actor, { trialId, choices: { ...typed.data, sampleSize } });
  });
  if (!result.ok) return { error: result.reason, values };
  redirect(`/lead/trials/${trialId}`);
}
