import type { Metadata } from "next";
import { PlanForm } from "@/app/outings/_components/plan-form";
import { requireActor } from "@/lib/auth/session";
import { joinedTrials, planningView } from "@/lib/services/growing/planning-view";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { joinMessages } from "@/lib/ui/messages/en/join";
import { placeMessages } from "@/lib/ui/messages/en/places";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { isUuid } from "@/shared/schemas/id";

const words = setMessages.plan;

export const metadata: Metadata = { title: words.title };

export default async function NewOutingPage({ searchParams }: { searchParams: Promise<{ trial?: string }> }) {
  const { trial: asked } = await searchParams;
  const actor = await requireActor(isUuid(asked) ? `/outings/new?trial=${asked}` : "/outings/new");
  const open = (await reading((tx) => joinedTrials(tx, actor))).filter(({ isOpen }) => isOpen);
  const trialId = isUuid(asked) ? asked : open.length === 1 ? open[0]!.id : null;
  if (!trialId) return <ChooseTrial trials={open} />;
  const view = await reading((tx) => planningView(tx, actor, trialId));
  const ofHousehold = open.find(({ id }) => id === trialId);
  if (!view && ofHousehold) return <AgreeFirst joinCode={ofHousehold.joinCode} />;
  if (view?.trial.status !== "open") {
    return (
      <>
        <PageHeading title={words.title} />
        <Notice kind="info">{view ? words.closed : words.notJoined}</Notice>
        <ButtonLink href="/trials">{words.findTrial}</ButtonLink>
      </>
    );
  }
  const { trial, sites, grains, limits } = view;
  return (
    <>
      <PageHeading title={words.title} lead={words.lead(trial.title)} />
      {sites.some(({ fault }) => fault === null) ? (
        <PlanForm
          trialId={trial.id}
          boxesMin={trial.boxesMin}
          boxesMax={trial.boxesMax}
          grains={grains}
          limits={limits}
          sites={sites}
        />
      ) : (
        <>
          <Notice kind="info">{words.placeNone(view.regionName)}</Notice>
          <ButtonLink href="/sites/new">{placeMessages.add}</ButtonLink>
        </>
      )}
    </>
  );
}

/** For an adult of a household that takes part, who hasn't agreed for themselves yet. */
function AgreeFirst({ joinCode }: { joinCode: string }) {
  return (
    <>
      <PageHeading title={words.title} />
      <Notice kind="info">{joinMessages.householdHasSeat}</Notice>
      <ButtonLink href={`/join/${encodeURIComponent(joinCode)}`}>{words.agree}</ButtonLink>
    </>
  );
}

function ChooseTrial({ trials }: { trials: readonly { id: string; title: string }[] }) {
  return (
    <>
      <PageHeading title={words.title} lead={trials.length > 0 ? words.chooseTrial : words.noTrial} />
      <ul className="space-y-3">
        {trials.map(({ id, title }) => (
          <li key={id}>
            <ButtonLink kind="quiet" href={`/outings/new?trial=${id}`}>
              {title}
            </ButtonLink>
          </li>
        ))}
      </ul>
      {trials.length === 0 ? <ButtonLink href="/trials">{words.findTrial}</ButtonLink> : null}
    </>
  );
}
