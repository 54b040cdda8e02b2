import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { planInProcess } from "@/lib/jobs/plan-process";
import { designsFor, runningDesign } from "@/lib/services/lead/design";
import { type LeadTrialView, leadTrialView } from "@/lib/services/lead/read";
import { inTransaction } from "@/lib/services/run";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { decimal } from "@/lib/ui/format";
import { designMessages as words } from "@/lib/ui/messages/en/design";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { armCountOf, type PlannerRequest } from "@/shared/schemas/planner";
import { Found } from "./_components/found";
import { RequestForm } from "./_components/request-form";
import { defaultValues, type Query, queryText, requestOf, typedValues } from "./_components/request-values";
import { SoFar } from "./_components/so-far";

interface Props {
  params: Promise<{ id: string }>;
  searchParams: Promise<Query>;
}

export const metadata: Metadata = { title: words.tabTitle };

export default async function DesignPage({ params, searchParams }: Props) {
  const { id } = await params;
  const query = await searchParams;
  const actor = await requireActor(`/lead/trials/${id}/design`);
  const view = await inTransaction((tx) => leadTrialView(tx, actor, id));
  if (!view.ok) notFound();
  const { trial, choices } = view.value;
  if (trial.status !== "draft") return <Running trialId={trial.id} />;
  const values = typedValues(query, defaultValues(trial, choices));
  const typed = query.show === undefined ? null : requestOf(values, trial);
  const form = <RequestForm trial={trial} values={values} faults={typed?.ok === false ? typed.faults : {}} />;
  return (
    <>
      <p className="mb-1 text-quiet">{trial.title}</p>
      <PageHeading title={words.pageTitle} lead={words.lead} />
      <p className="mb-4">
        <Link href={`/lead/trials/${trial.id}`} className="inline-flex min-h-[44px] items-center">
          {words.back}
        </Link>
      </p>
      {typed?.ok ? (
        <>
          <details className="mb-6">
            <summary className="min-h-[44px] max-w-[44em] cursor-pointer py-2">
              <span className="font-semibold">{words.form.change}:</span> {summaryOf(typed.request)}
            </summary>
            <div className="mt-3">{form}</div>
          </details>
          <div id="found">
            <Answer view={view.value} request={typed.request} query={query} />
          </div>
        </>
      ) : (
        form
      )}
    </>
  );
}

async function Running({ trialId }: { trialId: string }) {
  const actor = await requireActor(`/lead/trials/${trialId}/design`);
  const design = await inTransaction((tx) => runningDesign(tx, actor, trialId, new Date()));
  if (!design.ok || !design.value) notFound();
  return (
    <>
      <p className="mb-1 text-quiet">{design.value.trial.title}</p>
      <PageHeading title={words.soFar.title} lead={words.soFar.lead} />
      <SoFar design={design.value} />
      <p>
        <Link href={`/lead/trials/${trialId}`} className="inline-flex min-h-[44px] items-center">
          {words.backToTrial}
        </Link>
      </p>
    </>
  );
}

async function Answer({
  view: { trial, choices },
  request,
  query,
}: {
  view: LeadTrialView;
  request: PlannerRequest;
  query: Query;
}) {
  const actor = await requireActor(`/lead/trials/${trial.id}/design`);
  const answer = await designsFor(actor, trial.id, request, planInProcess);
  if (!answer.ok) {
    if (!("sets" in answer)) notFound();
    return <Notice kind="due">{words.refusal[answer.reason](answer.sets, answer.setsNeeded)}</Notice>;
  }
  return (
    <Found
      trialId={trial.id}
      request={request}
      result={answer.value}
      choices={choices}
      groupNames={
        new Map(trial.grouping.map((group) => [group.code, vocabularyMessages.climateGroupName(group)]))
      }
      query={queryText(query)}
      shown={typeof query.design === "string" ? query.design : undefined}
    />
  );
}

/** What was asked, in one line. */
function summaryOf({ arms, boxesPerSet, groups, difference }: PlannerRequest): string {
  const kinds = new Set(
    groups.map(({ growers, setsPerGrower }) => words.groupSummary(growers, setsPerGrower)),
  );
  return words.summary({
    recipes: armCountOf(arms),
    boxes: words.range(String(boxesPerSet.min), String(boxesPerSet.max)),
    difference: decimal(difference, 2),
    groups: kinds.size === 1 ? `${[...kinds][0]} ${words.inEach}` : words.groupsDiffer,
  });
}
