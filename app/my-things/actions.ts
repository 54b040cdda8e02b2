"use server";

import { revalidatePath } from "next/cache";
import { currentActor } from "@/lib/auth/session";
import { answerCorrection } from "@/lib/services/growing/corrections";
import { inTransaction } from "@/lib/services/run";
import { type FormState, SIGNED_OUT } from "@/lib/ui/form-state";
import { isUuid } from "@/shared/schemas/id";

const HERE = "/my-things";

/** Answers a lead's request: the record stands as it is. */
export async function recordStands(_previous: FormState, form: FormData): Promise<FormState> {
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const requestId = String(form.get("requestId") ?? "");
  if (!isUuid(requestId)) return { error: "NOT_FOUND" };
  const result = await inTransaction((tx) => answerCorrection(tx, actor, requestId, new Date()));
  if (!result.ok) return { error: result.reason };
  revalidatePath(HERE);
  return { done: "ANSWERED" };
}
