"use server";

import { redirect } from "next/navigation";
import { currentActor } from "@/lib/auth/session";
import { type LetterReach, reachOf, sendLetter } from "@/lib/services/lead/letters";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults, SIGNED_OUT } from "@/lib/ui/form-state";
import { isUuid } from "@/shared/schemas/id";
import { type Audience, letterSchema } from "@/shared/schemas/letter";

/** `reach`: the letter can be sent as it stands, to so many. */
export type LetterState = FormState & { readonly reach?: LetterReach };

const FIELDS = ["id", "audience", "subject", "body"] as const;

/** Looks a letter over, takes it back into the form to be changed, or sends it, by the button pressed. */
export async function writeLetter(_previous: LetterState, form: FormData): Promise<LetterState> {
  const trialId = String(form.get("trialId") ?? "");
  if (!isUuid(trialId)) return { error: "NOT_FOUND" };
  const values = Object.fromEntries(FIELDS.map((name) => [name, String(form.get(name) ?? "")]));
  if (form.get("step") === "change") return { values };
  const parsed = letterSchema.safeParse(values);
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error), values };
  const letter = parsed.data;
  const page = `/lead/trials/${trialId}/letters`;
  const actor = await currentActor();
  if (!actor) return SIGNED_OUT;
  if (form.get("step") !== "send") {
    const audience = letter.audience as Audience;
    const reach = await inTransaction((tx) => reachOf(tx, actor, { trialId, audience }, new Date()));
    return reach.ok ? { reach: reach.value, values } : { error: reach.reason, values };
  }
  const sent = await inTransaction((tx) => sendLetter(tx, actor, { trialId, letter }, new Date()));
  if (!sent.ok && sent.reason !== "ALREADY_SENT") return { error: sent.reason, values };
  redirect(`${page}?sent=${letter.id}`);
}
