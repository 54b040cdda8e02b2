import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { openedTrial } from "@/lib/services/lead/recruit";
import { reading } from "@/lib/services/run";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { seasonMessages as words } from "@/lib/ui/messages/en/season";
import { CopyForm } from "./_components/copy-form";

export const metadata: Metadata = { title: words.title };

export default async function CopyPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const actor = await requireActor(`/lead/trials/${id}/copy`);
  const trial = await reading((tx) => openedTrial(tx, actor, id));
  if (!trial.ok) notFound();
  return (
    <>
      <p className="mb-1 text-quiet">{trial.value.title}</p>
      <PageHeading title={words.title} lead={words.lead} />
      <CopyForm trialId={trial.value.id} />
      <p className="mt-6">
        <Link href={`/lead/trials/${id}`} className="inline-flex min-h-11 items-center">
          {words.back}
        </Link>
      </p>
    </>
  );
}
