import type { Metadata } from "next";
import Link from "next/link";
import { readTrialPage, type TrialPage } from "@/lib/services/read-trials";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";
import { TrialCard } from "./_components/trial-card";

export const metadata: Metadata = { title: words.title, description: words.lead };

interface Props {
  searchParams: Promise<{ open?: string | string[]; closed?: string | string[] }>;
}

export default async function TrialsPage({ searchParams }: Props) {
  const { open: openBefore, closed: closedBefore } = await searchParams;
  const [open, closed] = await Promise.all([
    readTrialPage("open", single(openBefore)),
    readTrialPage("closed", single(closedBefore)),
  ]);
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      <TrialList
        title={words.open}
        none={words.noneOpen}
        page={open}
        parameter="open"
        isFirst={!openBefore}
      />
      <TrialList
        title={words.closed}
        none={words.noneClosed}
        page={closed}
        parameter="closed"
        isFirst={!closedBefore}
      />
    </>
  );
}

function single(value: string | string[] | undefined): string | undefined {
  return Array.isArray(value) ? value[0] : value;
}

interface ListProps {
  title: string;
  none: string;
  page: TrialPage;
  parameter: "open" | "closed";
  isFirst: boolean;
}

function TrialList({ title, none, page, parameter, isFirst }: ListProps) {
  return (
    <section className="mb-8 max-w-[46em]">
      <h2 className="mb-3">{title}</h2>
      {page.trials.length === 0 ? <p className="text-quiet">{none}</p> : null}
      <ul className="space-y-4">
        {page.trials.map((trial) => (
          <TrialCard key={trial.id} trial={trial} />
        ))}
      </ul>
      <p className="mt-3 flex gap-5">
        {page.next ? <Link href={`/trials?${parameter}=${page.next}`}>{words.older}</Link> : null}
        {isFirst ? null : <Link href="/trials">{words.newest}</Link>}
      </p>
    </section>
  );
}
