import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { cache } from "react";
import { planHistory } from "@/lib/services/plan-history";
import { readRelease } from "@/lib/services/read-release";
import { readPublicBoxFlow, readTrial, type TrialView } from "@/lib/services/read-trials";
import { reading } from "@/lib/services/run";
import { AmendmentList } from "@/lib/ui/components/amendment-list";
import { ButtonLink } from "@/lib/ui/components/button";
import { DataTable } from "@/lib/ui/components/data-table";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { PauseList, PauseNotice } from "@/lib/ui/components/pause-notice";
import { dayWords } from "@/lib/ui/format";
import { planMessages } from "@/lib/ui/messages/en/plan";
import { releaseMessages } from "@/lib/ui/messages/en/release";
import { reportItemMessages } from "@/lib/ui/messages/en/report-items";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { recipeNames } from "@/lib/ui/recipe-names";
import { Fold } from "@/lib/ui/results/fold";
import { FlowTable } from "./_components/flow-table";
import { NextTime } from "./_components/next-time";
import { PlanFacts, ProofFacts } from "./_components/plan-facts";
import { RecipeList } from "./_components/recipe-list";
import { ReportItems } from "./_components/report-items";

interface Props {
  params: Promise<{ slug: string }>;
}

const load = cache((slug: string) => readTrial(slug));

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const trial = await load((await params).slug);
  return trial ? { title: trial.title, description: trial.question } : {};
}

export default async function TrialPage({ params }: Props) {
  const trial = await load((await params).slug);
  if (!trial) notFound();
  const release = trial.releaseHash ? await readRelease(trial) : null;
  const flow = release?.manifest.flow ?? (await readPublicBoxFlow(trial.id));
  const history = await reading((tx) => planHistory(tx, trial.id));
  if (!history) notFound();
  const pause = history.pauses.find(({ resumedAt }) => resumedAt === null);
  const recipeName = recipeNames(trial.recipes);
  return (
    <>
      {trial.invented ? <p className="mb-1 text-quiet">{words.invented}</p> : null}
      <PageHeading title={trial.title} lead={trial.question} />
      {pause ? <PauseNotice pause={pause} /> : null}
      <NextStep trial={trial} endsOn={history.ends.endsOn} />
      <section className="mb-8 max-w-[44em]">
        <h2 className="mb-2">{words.recipes}</h2>
        <ul className="mb-3 list-disc space-y-1 pl-6">
          {trial.recipes.map(({ code }) => (
            <li key={code}>{recipeName(code)}</li>
          ))}
        </ul>
        <Fold title={words.recipesDetail} note={words.recipesLead} kind="detail">
          <RecipeList recipes={trial.recipes} />
        </Fold>
      </section>
      {trial.status === "open" ? <Seats trial={trial} /> : null}
      <section className="mb-8">
        <h2 className="mb-1">{words.flow}</h2>
        <FlowTable flow={flow} losses={release?.manifest.losses ?? []} exact={release !== null} />
      </section>
      <NextTime trial={trial} />
      <h2 className="mt-10 mb-3">{words.more}</h2>
      <Fold title={words.groups} note={words.groupsLead}>
        <Groups trial={trial} />
      </Fold>
      <Fold title={words.plan} note={words.planLead}>
        <PlanFacts trial={trial} history={history} recipeName={recipeName} />
        <h4 className="mb-1 font-semibold">{planMessages.amendments.title}</h4>
        <AmendmentList amendments={history.amendments} />
        <PauseList pauses={history.pauses} />
      </Fold>
      <Fold title={words.proof}>
        <p className="mb-3 max-w-[44em]">{words.proofLead}</p>
        <ProofFacts trial={trial} />
      </Fold>
      <p className="mb-4">
        <Link href={`/trials/${trial.slug}/proof`} className="inline-flex min-h-11 items-center">
          {trial.status === "closed" ? words.proofCheck : words.proofMore}
        </Link>
      </p>
      <Fold title={reportItemMessages.title}>
        <p className="mb-3 max-w-[44em] text-quiet">{reportItemMessages.lead}</p>
        <ReportItems trial={trial} recipeName={recipeName} />
      </Fold>
    </>
  );
}

function NextStep({ trial, endsOn }: { trial: TrialView; endsOn: string }) {
  const results = `/trials/${trial.slug}/results`;
  if (trial.status === "closed") {
    return (
      <p className="mb-8 flex flex-wrap gap-3">
        <ButtonLink href={results}>{trial.releaseHash ? words.finalResults : words.results}</ButtonLink>
        {trial.releaseHash ? (
          <ButtonLink href={`/trials/${trial.slug}/release`} kind="quiet">
            {releaseMessages.link}
          </ButtonLink>
        ) : null}
      </p>
    );
  }
  const seatsLeft = trial.regions.reduce((sum, { capacity, seatsTaken }) => sum + capacity - seatsTaken, 0);
  return (
    <div className="mb-8">
      <p className="mb-3 first-letter:uppercase">
        {words.endsOn(dayWords(endsOn))} · {words.seatsLeft(seatsLeft)}
      </p>
      <p className="flex flex-wrap gap-3">
        <ButtonLink href={`/join/${trial.joinCode}`}>{seatsLeft > 0 ? words.join : words.wait}</ButtonLink>
        <ButtonLink href={results} kind="quiet">
          {words.resultsHidden}
        </ButtonLink>
      </p>
    </div>
  );
}

function Seats({ trial }: { trial: TrialView }) {
  return (
    <section className="mb-8 max-w-[26em]">
      <h2 className="mb-1">{words.regions}</h2>
      <DataTable
        caption={words.regionsCaption}
        columns={[
          { key: "region", label: words.region },
          { key: "seats", label: words.seats, numeric: true },
        ]}
        rows={trial.regions.map(({ name, capacity, seatsTaken }) => ({
          region: name,
          seats: words.seatsOf(capacity - seatsTaken, capacity),
        }))}
      />
    </section>
  );
}

function Groups({ trial }: { trial: TrialView }) {
  return (
    <ul className="mb-4 max-w-[44em] list-disc space-y-1 pl-6">
      {trial.grouping.map((group) => (
        <li key={group.code}>
          <b>{vocabularyMessages.climateGroupName(group)}</b>{" "}
          <span className="text-quiet">{vocabularyMessages.climateGroupClasses(group)}</span>
        </li>
      ))}
    </ul>
  );
}
