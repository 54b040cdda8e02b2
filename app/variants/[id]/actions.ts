"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { currentActor } from "@/lib/auth/session";
import { renameRecipe, takeOffShelf } from "@/lib/services/growing/variants";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { isUuid } from "@/shared/schemas/id";
import { renamedRecipeSchema } from "@/shared/schemas/shelf-entry";

const LIST = "/variants";

export async function saveName(_previous: FormState, form: FormData): Promise<FormState> {
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const values = { name: String(form.get("name") ?? "") };
  const parsed = renamedRecipeSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { fields: fieldFaults(parsed.error), values };
  const result = await inTransaction((tx) => renameRecipe(tx, actor, parsed.data));
  if (!result.ok) return { error: result.reason, values };
  revalidatePath(`${LIST}/${parsed.data.variantId}`);
  return { done: "RENAMED", values: { name: parsed.data.name } };
}

export async function takeOff(_previous: FormState, form: FormData): Promise<FormState> {
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const variantId = String(form.get("variantId") ?? "");
  if (!isUuid(variantId)) return { error: "NOT_FOUND" };
  const result = await inTransaction((tx) => takeOffShelf(tx, actor, variantId));
  if (!result.ok) return { error: result.reason };
  redirect(LIST);
}
