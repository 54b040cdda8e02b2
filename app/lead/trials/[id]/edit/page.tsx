import type { Metadata } from "next";
import Link from "next/link";
import { regionsToChoose } from "@/lib/services/lead/read";
import { reading } from "@/lib/services/run";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { DraftForm } from "../../_components/draft-form";
import { valuesOf } from "../../_components/draft-values";
import { loadDraft } from "../../_components/load-draft";
import { changeDraft } from "./actions";

const words = leadMessages.edit;

export const metadata: Metadata = { title: words.title };

export default async function EditDraftPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const { trial } = await loadDraft(id, "edit");
  const regions = await reading(regionsToChoose);
  return (
    <>
      <PageHeading title={trial.title} lead={words.lead} />
      <DraftForm
        action={changeDraft}
        submit={words.submit}
        regions={regions}
        values={valuesOf(trial)}
        trialId={trial.id}
      />
      <p className="mt-4">
        <Link href={`/lead/trials/${trial.id}`} className="inline-flex min-h-[44px] items-center">
          {words.back}
        </Link>
      </p>
    </>
  );
}
