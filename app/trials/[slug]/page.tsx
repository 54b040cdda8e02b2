import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { cache } from "react";
import { planHistory } from "@/lib/services/plan-history";
import { readPublicBoxFlow, readTrial, type TrialView } from "@/lib/services/read-trials";
import { reading } from "@/lib/services/run";
import { AmendmentList } from "@/lib/ui/components/amendment-list";
import { ButtonLink } from "@/lib/ui/components/button";
import { DataTable } from "@/lib/ui/components/data-table";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { PauseList, PauseNotice } from "@/lib/ui/components/pause-notice";
import { dayWords } from "@/lib/ui/format";
import { planMessages } from "@/lib/ui/messages/en/plan";
import { reportItemMessages } from "@/lib/ui/messages/en/report-items";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { recipeNames } from "@/lib/ui/recipe-names";
import { FlowTable } from "./_components/flow-table";
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
  const flow = await readPublicBoxFlow(trial.id);
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
      <section className="mb-8">
        <h2 className="mb-1">{words.recipes}</h2>
        <p className="mb-3 max-w-[42em] text-quiet">{words.recipesLead}</p>
        <RecipeList recipes={trial.recipes} />
      </section>
      <section className="mb-8">
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
      <section className="mb-8 max-w-[44em]">
        <h2 className="mb-1">{words.groups}</h2>
        <p className="mb-2 text-quiet">{words.groupsLead}</p>
        <ul className="list-disc space-y-1 pl-6">
          {trial.grouping.map((group) => (
            <li key={group.code}>
              <b>{vocabularyMessages.climateGroupName(group)}</b>{" "}
              <span className="text-quiet">{vocabularyMessages.climateGroupClasses(group)}</span>
            </li>
          ))}
        </ul>
      </section>
      <section className="mb-8">
        <h2 className="mb-1">{words.flow}</h2>
        <FlowTable flow={flow} />
      </section>
      <section className="mb-8">
        <h2 className="mb-1">{words.plan}</h2>
        <p className="mb-3 text-quiet">{words.planLead}</p>
        <PlanFacts trial={trial} history={history} recipeName={recipeName} />
        <h3 className="mb-1">{planMessages.amendments.title}</h3>
        <AmendmentList amendments={history.amendments} />
        <PauseList pauses={history.pauses} />
      </section>
      <section className="mb-8">
        <h2 className="mb-1">{words.proof}</h2>
        <p className="mb-2 max-w-[42em] text-quiet">{words.proofLead}</p>
        <ProofFacts trial={trial} />
        <p>
          <Link href={`/trials/${trial.slug}/proof`}>
            {trial.status === "closed" ? words.proofCheck : words.proofMore}
          </Link>
        </p>
      </section>
      <section className="mb-8">
        <h2 className="mb-1">{reportItemMessages.title}</h2>
        <p className="mb-3 max-w-[42em] text-quiet">{reportItemMessages.lead}</p>
        <ReportItems trial={trial} recipeName={recipeName} />
      </section>
    </>
  );
}

function NextStep({ trial, endsOn }: { trial: TrialView; endsOn: string }) {
  const results = `/trials/${trial.slug}/results`;
  if (trial.status === "closed") {
    return (
      <p className="mb-8">
        <ButtonLink href={results}>{words.results}</ButtonLink>
      </p>
    );
  }
  const seatsLeft = trial.regions.reduce((sum, { capacity, seatsTaken }) => sum + capacity - seatsTaken, 0);
  return (
    <div className="mb-8">
      <p className="mb-3">
        {words.endsOn(dayWords(endsOn))} · {words.seatsLeft(seatsLeft)}
      </p>
      <p className="flex flex-wrap gap-3">
        {seatsLeft > 0 ? <ButtonLink href={`/join/${trial.joinCode}`}>{words.join}</ButtonLink> : null}
        <ButtonLink href={results} kind="quiet">
          {words.resultsHidden}
        </ButtonLink>
      </p>
    </div>
  );
}
