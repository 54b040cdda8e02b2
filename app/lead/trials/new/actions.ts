"use server";

import { redirect } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { makeDraft } from "@/lib/services/lead/draft";
import { inTransaction } from "@/lib/services/run";
import { type FormState, fieldFaults } from "@/lib/ui/form-state";
import { parseGroupingLines, trialDraftSchema } from "@/shared/schemas/trial-draft";

const NEW_REGION = ["name", "south", "west", "north", "east", "capacity"] as const;
const SEATS = "seats.";

export async function makeTrial(_previous: FormState, form: FormData): Promise<FormState> {
  const actor = await requireActor("/lead/trials/new");
  const values = Object.fromEntries(
    [...form].filter(([, value]) => typeof value === "string") as [string, string][],
  );
  const parsed = trialDraftSchema.safeParse(draftOf(values));
  if (!parsed.success) return { error: "INVALID", fields: fieldFaults(parsed.error), values };
  const result = await inTransaction((tx) => makeDraft(tx, actor, parsed.data, new Date()));
  if (!result.ok) return { error: result.reason, values };
  redirect(`/lead/trials/${result.value.trialId}`);
}

/** The form's fields as the draft's schema has them; what was left empty is left out. */
function draftOf(values: Readonly<Record<string, string>>) {
  const region = Object.fromEntries(NEW_REGION.map((field) => [field, values[`region.${field}`] ?? ""]));
  const isEmpty = NEW_REGION.every((field) => region[field]?.trim() === "");
  return {
    title: values.title,
    question: values.question,
    boxesMin: values.boxesMin,
    boxesMax: values.boxesMax,
    endsOn: values.endsOn,
    grouping: parseGroupingLines(values.grouping ?? ""),
    regions: Object.entries(values)
      .filter(([name, seats]) => name.startsWith(SEATS) && seats.trim() !== "")
      .map(([name, capacity]) => ({ regionId: name.slice(SEATS.length), capacity })),
    newRegion: isEmpty ? null : region,
  };
}
