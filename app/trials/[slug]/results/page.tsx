import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { cache } from "react";
import { currentActor } from "@/lib/auth/session";
import { readResults, readTrial, type TrialView } from "@/lib/services/read-trials";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { dayWords } from "@/lib/ui/format";
import { releaseMessages } from "@/lib/ui/messages/en/release";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import { StoredPool } from "@/lib/ui/results/stored-pool";
import { NextTime } from "../_components/next-time";

interface Props {
  params: Promise<{ slug: string }>;
}

const load = cache((slug: string) => readTrial(slug));

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const trial = await load((await params).slug);
  return trial ? { title: words.resultsTitle(trial.title), description: trial.question } : {};
}

/** Reads what is stored; nothing is worked out here. Three queries: the actor, the trial, its result. */
export default async function ResultsPage({ params }: Props) {
  const trial = await load((await params).slug);
  if (!trial) notFound();
  const results = await readResults(trial, undefined, await currentActor());
  if (results.state === "hidden") return <Hidden trial={trial} />;
  return (
    <>
      <p className="mb-1 text-quiet">
        {trial.invented ? `${kindOf(trial)} · ${words.inventedShort}` : kindOf(trial)}
      </p>
      <PageHeading title={trial.title} lead={trial.question} />
      {results.state === "on-its-way" ? (
        <Notice kind="info">{words.onItsWay}</Notice>
      ) : (
        <StoredPool
          trial={{ ...trial, grouping: results.grouping }}
          stored={results}
          downloads={<Downloads trial={trial} />}
        />
      )}
      <NextTime trial={trial} />
      <p>
        <Link href={`/trials/${trial.slug}`}>{words.toTrial}</Link>
      </p>
    </>
  );
}

function kindOf({ releaseHash }: TrialView): string {
  return releaseHash ? releaseMessages.title : words.results;
}

function Downloads({ trial: { slug, releaseHash } }: { trial: TrialView }) {
  return (
    <p className="mb-6 flex flex-wrap gap-x-6">
      <a href={`/trials/${slug}/results/figures`} download className="inline-flex min-h-11 items-center">
        {words.downloads.figures}
      </a>
      {releaseHash ? (
        <Link href={`/trials/${slug}/release`} className="inline-flex min-h-11 items-center">
          {releaseMessages.link}
        </Link>
      ) : null}
    </p>
  );
}

function Hidden({ trial }: { trial: TrialView }) {
  return (
    <>
      <p className="mb-1 text-quiet">{trial.title}</p>
      <PageHeading title={words.hiddenTitle} lead={words.hiddenWhy} />
      <p className="mb-5">{words.hiddenUntil(dayWords(trial.plan.endsOn))}</p>
      <p>
        <Link href={`/trials/${trial.slug}`}>{words.toTrial}</Link>
      </p>
    </>
  );
}
