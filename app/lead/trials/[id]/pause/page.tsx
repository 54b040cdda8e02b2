import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { trialPauses } from "@/lib/services/lead/pause";
import { reading } from "@/lib/services/run";
import { PauseList, PauseNotice } from "@/lib/ui/components/pause-notice";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { DeskPage } from "../_components/desk-page";
import { PauseForm, ResumeForm } from "./_components/pause-forms";

const words = deskMessages.pause;

export const metadata: Metadata = { title: words.title };

export default async function PausePage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const actor = await requireActor(`/lead/trials/${id}/pause`);
  const found = await reading((tx) => trialPauses(tx, actor, id));
  if (!found.ok) notFound();
  const { trial, pauses } = found.value;
  const standing = pauses.find(({ resumedAt }) => resumedAt === null);
  return (
    <DeskPage trial={trial} title={words.title} lead={words.lead}>
      {standing ? <PauseNotice pause={standing} /> : null}
      <div className="mb-8">
        {trial.status === "open" ? null : <p>{words.closed}</p>}
        {standing ? <ResumeForm trialId={trial.id} /> : null}
        {trial.status === "open" && !standing ? <PauseForm trialId={trial.id} /> : null}
        {standing ? (
          <p className="mt-4">
            <Link
              href={`/lead/trials/${trial.id}/letters?to=everyone#write`}
              className="inline-flex min-h-[44px] items-center"
            >
              {words.write}
            </Link>
          </p>
        ) : null}
      </div>
      {pauses.length === 0 ? <p>{words.none}</p> : <PauseList pauses={pauses} />}
    </DeskPage>
  );
}
