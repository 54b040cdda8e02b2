"use server";

import { revalidatePath } from "next/cache";
import { z } from "zod";
import { currentActor } from "@/lib/auth/session";
import { changeCapacity } from "@/lib/services/lead/recruit";
import { inTransaction } from "@/lib/services/run";
import { typedNumber } from "@/lib/ui/form-numbers";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { seatsSchema } from "@/shared/schemas/trial-draft";

const capacitySchema = z.object({ trialId: z.uuid(), regionId: z.uuid(), capacity: seatsSchema });

export async function changeSeats(_previous: FormState, form: FormData): Promise<FormState> {
  const values = { capacity: String(form.get("capacity") ?? "") };
  const typed = { ...Object.fromEntries(form), capacity: typedNumber(values.capacity) };
  const parsed = capacitySchema.safeParse(typed);
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error), values };
  const page = `/lead/trials/${parsed.data.trialId}/recruit`;
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const changed = await inTransaction((tx) => changeCapacity(tx, actor, parsed.data));
  if (!changed.ok) return { error: changed.reason, values };
  revalidatePath(page);
  return { done: "CHANGED" };
}
