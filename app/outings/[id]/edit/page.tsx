import type { Metadata } from "next";
import { notFound, redirect } from "next/navigation";
import { PlanForm } from "@/app/outings/_components/plan-form";
import { requireActor } from "@/lib/auth/session";
import { outingView } from "@/lib/services/growing/outing-view";
import { planningView } from "@/lib/services/growing/planning-view";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { isUuid } from "@/shared/schemas/id";

const words = setMessages.plan;

interface Props {
  params: Promise<{ id: string }>;
}

export const metadata: Metadata = { title: words.editTitle };

export default async function EditOutingPage({ params }: Props) {
  const { id } = await params;
  const actor = await requireActor(`/outings/${id}/edit`);
  const outing = isUuid(id) ? await reading((tx) => outingView(tx, actor, id)) : null;
  if (!outing) notFound();
  const planning = await reading((tx) => planningView(tx, actor, outing.trial.id));
  if (planning?.trial.status !== "open" || outing.status !== "planned") redirect(`/outings/${id}`);
  const { trial, sites, grains, limits } = planning;
  const { siteId, day, version, grainsAtHand, plan, boxes } = outing;
  return (
    <>
      <PageHeading title={words.editTitle} lead={words.editLead} />
      <PlanForm
        trialId={trial.id}
        boxesMin={trial.boxesMin}
        boxesMax={trial.boxesMax}
        grains={grains}
        limits={limits}
        sites={sites}
        set={{
          outingId: id,
          basedOn: version,
          siteId,
          day,
          ...plan,
          boxes: boxes.map((box) => ({ id: box.id })),
          grainsAtHand: [...grainsAtHand],
        }}
      />
      <p className="mt-4">
        <ButtonLink kind="quiet" href={`/outings/${id}`}>
          {words.backToSet}
        </ButtonLink>
      </p>
    </>
  );
}
