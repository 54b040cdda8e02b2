import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import type { Actor } from "@/lib/auth/actor";
import { requireActor } from "@/lib/auth/session";
import { poolInProcess } from "@/lib/jobs/pool-process";
import { leadTrialView } from "@/lib/services/lead/read";
import { previewRelease, type ReleasePreview } from "@/lib/services/lead/release";
import { releasedGrouping } from "@/lib/services/read-trials";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { releaseMessages } from "@/lib/ui/messages/en/release";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { methodsText } from "@/lib/ui/release/methods-text";
import { PoolView } from "@/lib/ui/results/pool-view";
import { ReleaseForm } from "./_components/release-form";

const words = releaseMessages.lead;

export const metadata: Metadata = { title: words.title };

/** Everything a release would make public, worked out now: the lead looks before it is for good. */
export default async function LeadReleasePage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const actor = await requireActor(`/lead/trials/${id}/release`);
  const preview = await previewRelease(actor, id, { pool: poolInProcess, writeMethods: methodsText });
  if (!preview.ok && preview.reason === "NOT_FOUND") notFound();
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      {preview.ok ? (
        <Preview preview={preview.value} />
      ) : (
        <Refused reason={preview.reason} actor={actor} id={id} />
      )}
      <p className="mt-6">
        <Link href={`/lead/trials/${id}`} className="inline-flex min-h-11 items-center">
          {words.back}
        </Link>
      </p>
    </>
  );
}

async function Refused({ reason, actor, id }: { reason: string; actor: Actor; id: string }) {
  if (reason !== "ALREADY_RELEASED") return <Notice kind="info">{words.outcomes[reason]}</Notice>;
  const view = await reading((tx) => leadTrialView(tx, actor, id));
  if (!view.ok) notFound();
  return (
    <>
      <Notice kind="ok">{words.done}</Notice>
      <ButtonLink href={`/trials/${view.value.trial.slug}/release`}>{words.toPublic}</ButtonLink>
    </>
  );
}

function Preview({ preview }: { preview: ReleasePreview }) {
  const { trial, facts, csv, rowsSha256, analysis, methods } = preview;
  const { joinedGroups, rests } = facts;
  return (
    <>
      <h2 className="mb-1">{words.what}</h2>
      <p className="mb-3 max-w-[44em] text-quiet">{words.whatLead}</p>
      <p className="mb-4">{releaseMessages.rests(rests.growers, rests.outings, rests.boxes)}</p>
      {joinedGroups ? <Notice kind="info">{joinedWords(preview)}</Notice> : null}
      <FirstRows csv={csv} rows={rests.boxes} />
      <details className="mb-6 max-w-[44em] border-t border-line pt-2">
        <summary className="min-h-11 cursor-pointer py-2 font-semibold">
          {releaseMessages.methodsTitle}
        </summary>
        <p className="whitespace-pre-line break-words">{methods}</p>
      </details>
      <section className="mb-8">
        <h2 className="mb-2">{words.confirmTitle}</h2>
        <ReleaseForm trialId={trial.id} rowsSha256={rowsSha256} />
      </section>
      <h2 className="mb-1">{words.figures}</h2>
      <p className="mb-4 max-w-[44em] text-quiet">{words.figuresLead}</p>
      <PoolView
        trial={{ ...trial, recipes: trial.arms, grouping: releasedGrouping({ ...trial, joinedGroups }) }}
        result={analysis}
        computedAt={new Date()}
        newerWanted={false}
        ownGroups={[]}
      />
    </>
  );
}

function joinedWords({ trial: { grouping }, facts: { joinedGroups } }: ReleasePreview): string {
  const named = grouping.filter(({ code }) => joinedGroups!.of.includes(code));
  return releaseMessages.joined(named.map(vocabularyMessages.climateGroupName));
}

const ROWS_SHOWN = 5;

/** As they stand in the file: on a phone they scroll sideways. */
function FirstRows({ csv, rows }: { csv: string; rows: number }) {
  const first = csv.split("\r\n", ROWS_SHOWN + 1).join("\n");
  return (
    <>
      <h3 className="mb-1">{words.rowsCaption}</h3>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard (WCAG 2.1.1) */}
      <section aria-label={words.rowsCaption} tabIndex={0} className="mb-2 overflow-x-auto bg-panel p-3">
        <pre className="font-mono text-[0.875rem]">{first}</pre>
      </section>
      <p className="mb-6">{words.moreRows(rows)}</p>
    </>
  );
}
