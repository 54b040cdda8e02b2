import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { trialLeads } from "@/lib/services/lead/co-leads";
import { reading } from "@/lib/services/run";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { DeskPage } from "../_components/desk-page";
import { AddLeadForm, StepBackForm } from "./_components/lead-forms";

const words = deskMessages.leads;

export const metadata: Metadata = { title: words.title };

export default async function LeadsPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const actor = await requireActor(`/lead/trials/${id}/leads`);
  const found = await reading((tx) => trialLeads(tx, actor, id));
  if (!found.ok) notFound();
  const { trial, leads } = found.value;
  return (
    <DeskPage trial={trial} title={words.title} lead={words.lead}>
      <ul className="mb-8 max-w-[44em]">
        {leads.map(({ accountId, name }) => (
          <li key={accountId} className="border-b border-line py-2.5">
            <bdi className="font-semibold">{name}</bdi>
            {accountId === actor.accountId ? ` (${words.you})` : null}
          </li>
        ))}
      </ul>
      <section className="mb-8">
        <h2 className="mb-3">{words.add}</h2>
        <AddLeadForm trialId={trial.id} />
      </section>
      <section>
        <h2 className="mb-2">{words.back}</h2>
        {leads.length > 1 ? <StepBackForm trialId={trial.id} /> : <p>{words.last}</p>}
      </section>
    </DeskPage>
  );
}
