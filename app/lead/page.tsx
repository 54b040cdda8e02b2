import type { Metadata } from "next";
import Link from "next/link";
import { requireActor } from "@/lib/auth/session";
import { mayMakeTrials } from "@/lib/services/lead/authorise";
import { type LedTrialRow, myTrials } from "@/lib/services/lead/read";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { DataTable } from "@/lib/ui/components/data-table";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { dayWords } from "@/lib/ui/format";
import { leadMessages } from "@/lib/ui/messages/en/lead";

const words = leadMessages.list;

export const metadata: Metadata = { title: words.title };

export default async function LeadPage() {
  const actor = await requireActor("/lead");
  const trials = await reading((tx) => myTrials(tx, actor));
  const mayMake = mayMakeTrials(actor);
  return (
    <>
      <PageHeading title={words.title} lead={words.lead} />
      {trials.length > 0 ? (
        <TrialTable trials={trials} />
      ) : (
        <p className="mb-5">{mayMake ? words.none : words.noneAndMayNot}</p>
      )}
      {mayMake ? <ButtonLink href="/lead/trials/new">{words.make}</ButtonLink> : null}
    </>
  );
}

function TrialTable({ trials }: { trials: readonly LedTrialRow[] }) {
  const { columns } = words;
  return (
    <DataTable
      caption={words.caption}
      columns={[
        { key: "title", label: columns.title },
        { key: "status", label: columns.status },
        { key: "seats", label: columns.seats, numeric: true },
        { key: "endsOn", label: columns.endsOn, numeric: true },
      ]}
      rows={trials.map((trial) => ({
        title: (
          <Link href={`/lead/trials/${trial.id}`} className="inline-flex min-h-[44px] items-center">
            {trial.title}
          </Link>
        ),
        status: leadMessages.status[trial.status as keyof typeof leadMessages.status],
        seats: words.seats(trial.seatsTaken, trial.seats),
        endsOn: <time dateTime={trial.endsOn}>{dayWords(trial.endsOn)}</time>,
      }))}
    />
  );
}
