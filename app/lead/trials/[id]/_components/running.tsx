import Link from "next/link";
import type { LeadTrialRow, LeadTrialView } from "@/lib/services/lead/read";
import { DataTable } from "@/lib/ui/components/data-table";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { dayWords } from "@/lib/ui/format";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { Closing } from "./closing";
import { GroupTables } from "./group-tables";

const words = leadMessages.running;

export function Running({ view }: { view: LeadTrialView }) {
  const { trial } = view;
  return (
    <>
      {trial.closedAt ? (
        <Notice kind="info">{words.closedOn(dayWords(trial.closedAt.toISOString().slice(0, 10)))}</Notice>
      ) : (
        <Invitation trial={trial} />
      )}
      <p className="mb-6 flex flex-wrap gap-x-6">
        <Link href={`/trials/${trial.slug}`} className="inline-flex min-h-[44px] items-center">
          {words.publicPage}
        </Link>
        {trial.closedAt ? (
          <Link href={`/trials/${trial.slug}/results`} className="inline-flex min-h-[44px] items-center">
            {words.results}
          </Link>
        ) : null}
      </p>
      <DataTable
        caption={words.seatsCaption}
        columns={[
          { key: "region", label: words.seatColumns.region },
          { key: "taken", label: words.seatColumns.taken, numeric: true },
          { key: "all", label: words.seatColumns.all, numeric: true },
        ]}
        rows={trial.regions.map(({ name, seatsTaken, capacity }) => ({
          region: name,
          taken: seatsTaken,
          all: capacity,
        }))}
      />
      <Progress view={view} />
      {trial.status === "open" ? (
        <Closing trialId={trial.id} endsOn={trial.endsOn} isEarly={isEarly(trial)} />
      ) : null}
    </>
  );
}

function isEarly(trial: LeadTrialRow): boolean {
  return new Date().toISOString().slice(0, 10) < trial.endsOn;
}

function Invitation({ trial }: { trial: LeadTrialRow }) {
  const path = `/join/${trial.joinCode}`;
  return (
    <section>
      <h2 className="mb-2">{words.joinTitle}</h2>
      <p className="mb-3">{words.joinLead}</p>
      <Facts
        items={[
          { label: words.address, value: <Link href={path}>{path}</Link> },
          { label: words.code, value: <code>{trial.joinCode}</code> },
        ]}
      />
    </section>
  );
}

function Progress({ view: { trial, progress, losses } }: { view: LeadTrialView }) {
  return (
    <section>
      <h2 className="mb-2">{words.progress}</h2>
      {trial.status === "open" ? <p className="mb-4 max-w-[44em]">{words.curtain}</p> : null}
      {progress.length === 0 ? (
        <p className="mb-4">{words.noSets}</p>
      ) : (
        <GroupTables progress={progress} grouping={trial.grouping} />
      )}
      {progress.length > 0 && losses.length === 0 ? <p className="mb-6">{words.noLosses}</p> : null}
      {losses.length > 0 ? (
        <DataTable
          caption={words.lossCaption}
          columns={[
            { key: "kind", label: words.lossColumns.kind },
            { key: "boxes", label: words.lossColumns.boxes, numeric: true },
          ]}
          rows={losses.map(({ kind, boxes }) => ({ kind: vocabularyMessages.event[kind], boxes }))}
        />
      ) : null}
    </section>
  );
}
