"use server";

import { revalidatePath } from "next/cache";
import { currentActor } from "@/lib/auth/session";
import { planInProcess } from "@/lib/jobs/plan-process";
import { designsFor, takeIntoPlan } from "@/lib/services/lead/design";
import { leadTrialView } from "@/lib/services/lead/read";
import { inTransaction, reading } from "@/lib/services/run";
import { type FormState, SIGNED_OUT } from "@/lib/ui/form-state";
import { isUuid } from "@/shared/schemas/id";
import { designFromKey } from "./_components/places";
import { defaultValues, queryOf, requestOf, typedValues } from "./_components/request-values";

/** Keeps a design's figures in the plan. The query is what the page was asked; nothing worked out is taken from it. */
export async function takeFigures(_previous: FormState, form: FormData): Promise<FormState> {
  const trialId = String(form.get("trialId") ?? "");
  if (!isUuid(trialId)) return { error: "NOT_FOUND" };
  const page = `/lead/trials/${trialId}/design`;
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const query = queryOf(String(form.get("query") ?? ""));
  const choice = designFromKey(String(query.design ?? ""));
  if (!choice) return { error: "NO_SUCH_DESIGN" };
  const view = await reading((tx) => leadTrialView(tx, actor, trialId));
  if (!view.ok) return { error: view.reason };
  const { trial, choices } = view.value;
  const typed = requestOf(typedValues(query, defaultValues(trial, choices)), trial);
  if (!typed.ok) return { error: "INVALID" };
  const { request } = typed;
  const planned = await designsFor(actor, trialId, request, planInProcess);
  if (!planned.ok) return { error: planned.reason };
  const result = await inTransaction((tx) =>
    takeIntoPlan(tx, actor, { trialId, request, planned: planned.value, choice }),
  );
  if (!result.ok) return { error: result.reason };
  revalidatePath(page);
  return { done: "TAKEN" };
}
