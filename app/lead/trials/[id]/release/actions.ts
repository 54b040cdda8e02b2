"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { z } from "zod";
import { currentActor } from "@/lib/auth/session";
import { poolInProcess } from "@/lib/jobs/pool-process";
import { releaseTrial } from "@/lib/services/lead/release";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { methodsText } from "@/lib/ui/release/methods-text";
import { hash256Schema } from "@/shared/schemas/draw";

const releaseSchema = z.object({
  trialId: z.uuid(),
  rowsSha256: hash256Schema,
  confirm: z.literal("on", { error: "CONFIRM" }),
});

export async function release(_previous: FormState, form: FormData): Promise<FormState> {
  const parsed = releaseSchema.safeParse(Object.fromEntries(form));
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error) };
  const page = `/lead/trials/${parsed.data.trialId}/release`;
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  const released = await releaseTrial(actor, parsed.data, { pool: poolInProcess, writeMethods: methodsText });
  if (!released.ok) return { error: released.reason };
  revalidatePath(page);
  redirect(`/trials/${released.value.slug}/release`);
}
