import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { cache } from "react";
import { requireActor } from "@/lib/auth/session";
import { deskOf } from "@/lib/services/lead/desk";
import { leadTrialView } from "@/lib/services/lead/read";
import { planHistory } from "@/lib/services/plan-history";
import { inTransaction, reading } from "@/lib/services/run";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { leadMessages as words } from "@/lib/ui/messages/en/lead";
import { Draft } from "./_components/draft";
import { Running } from "./_components/running";

interface Props {
  params: Promise<{ id: string }>;
}

const load = cache(async (id: string) => {
  const actor = await requireActor(`/lead/trials/${id}`);
  const view = await inTransaction((tx) => leadTrialView(tx, actor, id));
  if (!view.ok) notFound();
  return view.value;
});

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { id } = await params;
  return { title: (await load(id)).trial.title };
}

export default async function LeadTrialPage({ params }: Props) {
  const { id } = await params;
  const actor = await requireActor(`/lead/trials/${id}`);
  // Both count all of a trial's boxes, so at the same time.
  const [view, desk] = await Promise.all([load(id), reading((tx) => deskOf(tx, actor, id, new Date()))]);
  const { trial } = view;
  const history = await reading((tx) => planHistory(tx, trial.id));
  return (
    <>
      <PageHeading
        title={trial.title}
        lead={trial.status === "draft" ? words.draft.lead : words.status[trial.status]}
      />
      {trial.invented ? <Notice kind="info">{words.invented}</Notice> : null}
      {history && desk.ok ? (
        <Running view={view} desk={desk.value} history={history} />
      ) : (
        <Draft view={view} />
      )}
    </>
  );
}
