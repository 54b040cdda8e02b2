import type { Metadata } from "next";
import Link from "next/link";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { loadDraft } from "../../_components/load-draft";
import { ChoicesForm } from "./_components/choices-form";
import { choiceValues } from "./_components/choices-values";

const words = leadMessages.choices;

export const metadata: Metadata = { title: words.title };

export default async function ChoicesPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const { trial } = await loadDraft(id, "plan");
  return (
    <>
      <p className="mb-1 text-quiet">{trial.title}</p>
      <PageHeading title={words.title} lead={words.lead} />
      <ChoicesForm
        trialId={trial.id}
        endsOn={trial.endsOn}
        recipes={trial.arms.map(({ code, content }) => ({
          value: code,
          label: `${code} ${vocabularyMessages.recipeName(content)}`,
        }))}
        values={choiceValues(trial.choices ?? DEFAULT_PLAN_CHOICES)}
      />
      <p className="mt-4">
        <Link href={`/lead/trials/${trial.id}`} className="inline-flex min-h-[44px] items-center">
          {words.back}
        </Link>
      </p>
    </>
  );
}
