"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { z } from "zod";
import { currentActor } from "@/lib/auth/session";
import { enqueuePool } from "@/lib/jobs/boss";
import { amendPlan } from "@/lib/services/lead/amend";
import { closeTrial } from "@/lib/services/lead/close";
import { addArms, removeArm } from "@/lib/services/lead/draft-arms";
import { openTrial } from "@/lib/services/lead/open";
import { inTransaction } from "@/lib/services/run";
import { typedNumber } from "@/lib/ui/form-numbers";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { isUuid } from "@/shared/schemas/id";
import { amendmentRequestSchema } from "@/shared/schemas/plan-amendment";
import { refusal } from "../_components/draft-values";

const pageOf = (trialId: string) => `/lead/trials/${trialId}`;

const armsSchema = z.object({ trialId: z.uuid(), variantIds: z.array(z.uuid()) });

export async function addRecipes(_previous: FormState, form: FormData): Promise<FormState> {
  const parsed = armsSchema.safeParse({
    trialId: form.get("trialId"),
    variantIds: form.getAll("variantId"),
  });
  if (!parsed.success) return { error: "NOT_FOUND" };
  if (parsed.data.variantIds.length === 0) return { error: "NO_RECIPE_TICKED" };
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const result = await inTransaction((tx) => addArms(tx, actor, parsed.data));
  if (!result.ok) return { error: result.reason };
  revalidatePath(pageOf(parsed.data.trialId));
  return { done: "ARMS_ADDED" };
}

const removalSchema = z.object({ trialId: z.uuid(), armId: z.uuid() });

export async function takeOutRecipe(_previous: FormState, form: FormData): Promise<FormState> {
  const parsed = removalSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { error: "NOT_FOUND" };
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const result = await inTransaction((tx) => removeArm(tx, actor, parsed.data));
  if (!result.ok) return { error: result.reason };
  revalidatePath(pageOf(parsed.data.trialId));
  return {};
}

const confirmedSchema = z.object({ trialId: z.uuid(), confirm: z.literal("on", { error: "CONFIRM" }) });

export async function open(_previous: FormState, form: FormData): Promise<FormState> {
  const parsed = confirmedSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error) };
  const { trialId } = parsed.data;
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const result = await inTransaction((tx) => openTrial(tx, actor, { trialId }, new Date()));
  if (!result.ok) return { error: result.reason };
  redirect(pageOf(trialId));
}

export async function close(_previous: FormState, form: FormData): Promise<FormState> {
  const parsed = confirmedSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error) };
  const { trialId } = parsed.data;
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const result = await inTransaction((tx) => closeTrial(tx, actor, trialId, new Date()));
  if (!result.ok) return { error: result.reason };
  await enqueuePool(result.value.trialId);
  redirect(pageOf(trialId));
}

/** The ways to amend a plan, each with what is wrong when its own field can't be used. */
const AMENDMENT_FAULTS = {
  endsOn: "plan.endsOn.form",
  endsAtBoxes: "plan.endsAtBoxes",
  clarification: "amendment.clarification",
} as const;
const AMENDMENT_FIELDS = ["kind", "reason", "endsOn", "endsAtBoxes", "clarification"] as const;

export async function amend(_previous: FormState, form: FormData): Promise<FormState> {
  const trialId = String(form.get("trialId") ?? "");
  if (!isUuid(trialId)) return { error: "NOT_FOUND" };
  const values = Object.fromEntries(AMENDMENT_FIELDS.map((field) => [field, String(form.get(field) ?? "")]));
  const kind = (values.kind ?? "") as keyof typeof AMENDMENT_FAULTS;
  if (!(kind in AMENDMENT_FAULTS)) return { error: "INVALID", fields: { kind: "amendment.kind" }, values };
  const changeTo = kind === "endsAtBoxes" ? typedNumber(values[kind]!) : values[kind];
  const parsed = amendmentRequestSchema.safeParse({ change: { [kind]: changeTo }, reason: values.reason });
  if (!parsed.success) {
    const { reason } = fieldFaults(parsed.error);
    const isChangeFaulty = parsed.error.issues.some(({ path }) => path[0] === "change");
    const fields = {
      ...(reason ? { reason } : {}),
      ...(isChangeFaulty ? { [kind]: AMENDMENT_FAULTS[kind] } : {}),
    };
    return { error: "INVALID", fields, values };
  }
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const result = await inTransaction((tx) => amendPlan(tx, actor, { trialId, ...parsed.data }, new Date()));
  if (!result.ok) return refusal(result.reason, values);
  revalidatePath(pageOf(trialId));
  return { done: "AMENDED" };
}
