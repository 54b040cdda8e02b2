"use server";

import { revalidatePath } from "next/cache";
import { notFound } from "next/navigation";
import { z } from "zod";
import { currentActor } from "@/lib/auth/session";
import { allowLeading, allowSignIn } from "@/lib/services/accounts/admin";
import { inTransaction } from "@/lib/services/run";

const changeSchema = z.object({
  accountId: z.uuid(),
  allowed: z.enum(["yes", "no"]).transform((answer) => answer === "yes"),
});

async function change(form: FormData, service: typeof allowSignIn | typeof allowLeading): Promise<void> {
  const actor = await currentActor();
  const parsed = changeSchema.safeParse(Object.fromEntries(form));
  if (!actor || !parsed.success) notFound();
  const result = await inTransaction((tx) => service(tx, actor, parsed.data));
  if (!result.ok) notFound();
  revalidatePath("/admin");
}

export async function changeSignIn(form: FormData): Promise<void> {
  await change(form, allowSignIn);
}

export async function changeLeading(form: FormData): Promise<void> {
  await change(form, allowLeading);
}
