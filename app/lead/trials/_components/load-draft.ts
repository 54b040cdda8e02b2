import { notFound, redirect } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { type LeadTrialView, leadTrialView } from "@/lib/services/lead/read";
import { inTransaction } from "@/lib/services/run";

/** The actor's own draft for a page beneath it; once it has opened, its own page says so. */
export async function loadDraft(id: string, page: string): Promise<LeadTrialView> {
  const actor = await requireActor(`/lead/trials/${id}/${page}`);
  const view = await inTransaction((tx) => leadTrialView(tx, actor, id));
  if (!view.ok) notFound();
  if (view.value.trial.status !== "draft") redirect(`/lead/trials/${id}`);
  return view.value;
}
