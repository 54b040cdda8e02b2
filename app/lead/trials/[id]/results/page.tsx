import type { Metadata } from "next";
import Link from "next/link";
import { notFound } from "next/navigation";
import { cache } from "react";
import { requireActor } from "@/lib/auth/session";
import { type LeadResults, leadResults } from "@/lib/services/lead/results";
import { reading } from "@/lib/services/run";
import { Notice } from "@/lib/ui/components/notice";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { dayWords, momentWords } from "@/lib/ui/format";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import { StoredPool } from "@/lib/ui/results/stored-pool";

interface Props {
  params: Promise<{ id: string }>;
}

const load = cache(async (id: string) => {
  const actor = await requireActor(`/lead/trials/${id}/results`);
  const results = await reading((tx) => leadResults(tx, actor, id));
  if (!results.ok) notFound();
  return results.value;
});

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const { trial } = await load((await params).id);
  return { title: words.resultsTitle(trial.title) };
}

/** The whole result, by grower too. Three queries: the actor, the result with whose trial it is, the trial. */
export default async function LeadResultsPage({ params }: Props) {
  const { id } = await params;
  const results = await load(id);
  const { trial } = results;
  return (
    <>
      <p className="mb-1 text-quiet">
        {trial.invented ? `${words.leadResults} · ${words.inventedShort}` : words.leadResults}
      </p>
      <PageHeading title={trial.title} lead={trial.question} />
      <Failure pool={results.pool} />
      <Results id={id} {...results} />
      <p>
        <Link href={`/lead/trials/${id}`}>{words.toLead}</Link>
      </p>
    </>
  );
}

function Results({ id, trial, pool }: LeadResults & { id: string }) {
  const { stored, computedAt, newerWanted, status } = pool;
  if (!stored || !computedAt) {
    return status === "closed" ? (
      <Notice kind="info">{words.onItsWay}</Notice>
    ) : (
      <p className="mb-6 max-w-[42em]">
        {words.hiddenWhy} {words.hiddenUntil(dayWords(trial.plan.endsOn))}
      </p>
    );
  }
  return (
    <StoredPool
      trial={trial}
      stored={{ ...stored, computedAt, newerWanted }}
      downloads={
        <ul className="mb-6 space-y-2">
          <li>
            <a href={`/lead/trials/${id}/results/figures`} download>
              {words.downloads.figures}
            </a>
          </li>
          {status === "closed" ? (
            <li className="max-w-[44em]">
              <a href={`/lead/trials/${id}/results/rows`} download>
                {words.downloads.rows}
              </a>
              <span className="block text-quiet">{words.downloads.rowsNote}</span>
            </li>
          ) : null}
        </ul>
      }
    />
  );
}

/** Why the last attempt came to nothing; the result before it stays. */
function Failure({ pool: { failedAt, failure, stored } }: Pick<LeadResults, "pool">) {
  if (!failedAt) return null;
  return (
    <Notice kind="due">
      <p>
        {words.failedTitle} {stored ? words.failedKept : null}
      </p>
      <p className="font-normal">{words.failedWhy(momentWords(failedAt), failure ?? "")}</p>
    </Notice>
  );
}
