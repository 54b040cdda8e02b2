import Link from "next/link";
import type { LeadTrialRow, LeadTrialView } from "@/lib/services/lead/read";
import type { PlanHistory } from "@/lib/services/plan-history";
import { AmendmentList } from "@/lib/ui/components/amendment-list";
import { DataTable } from "@/lib/ui/components/data-table";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { PlanSheet } from "@/lib/ui/components/plan-sheet";
import { dayWords, momentWords } from "@/lib/ui/format";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { recipeNames } from "@/lib/ui/recipe-names";
import { Amending } from "./amending";
import { Closing } from "./closing";
import { GroupTables } from "./group-tables";

const words = leadMessages.running;

/** A trial that has opened: inviting, how far it has come, its plan with amendments, and its close. */
export function Running({ view, history }: { view: LeadTrialView; history: PlanHistory }) {
  const { trial, ending } = view;
  return (
    <>
      {trial.closedAt ? (
        <Notice kind="info">{words.closedOn(dayWords(trial.closedAt.toISOString().slice(0, 10)))}</Notice>
      ) : null}
      {ending?.isOver ? <Notice kind="due">{words.over}</Notice> : null}
      {ending && !ending.isOver ? <Invitation trial={trial} /> : null}
      <p className="mb-6 flex flex-wrap gap-x-6">
        <PageLink href={`/trials/${trial.slug}`}>{words.publicPage}</PageLink>
        <PageLink href={`/lead/trials/${trial.id}/design`}>{words.design}</PageLink>
        <PageLink href={`/lead/trials/${trial.id}/results`}>{words.results}</PageLink>
      </p>
      <Progress view={view} />
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
      <OpenedPlan trial={trial} history={history} />
      {ending ? <Closing trialId={trial.id} endsOn={trial.ends.endsOn} ending={ending} /> : null}
    </>
  );
}

function PageLink({ href, children }: { href: string; children: string }) {
  return (
    <Link href={href} className="inline-flex min-h-[44px] items-center">
      {children}
    </Link>
  );
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

function OpenedPlan({ trial, history }: { trial: LeadTrialRow; history: PlanHistory }) {
  return (
    <section>
      <h2 className="mb-2">{words.plan}</h2>
      <p className="mb-3 text-quiet">{words.planLead}</p>
      <PlanSheet
        plan={history.plan}
        recipeName={recipeNames(trial.arms)}
        endsNow={history.ends}
        more={[
          { label: words.opened, value: momentWords(history.openedAt) },
          { label: words.planHash, value: <Fingerprint>{history.planHash}</Fingerprint> },
          ...(trial.seal ? [{ label: words.seal, value: <Fingerprint>{trial.seal}</Fingerprint> }] : []),
        ]}
      />
      <h2 className="mb-2">{leadMessages.amendments.title}</h2>
      <p className="mb-3 max-w-[44em] text-quiet">{leadMessages.amendments.lead}</p>
      <AmendmentList amendments={history.amendments} />
      {trial.status === "open" ? <Amending trialId={trial.id} /> : null}
    </section>
  );
}

function Fingerprint({ children }: { children: string }) {
  return <span className="break-all font-mono font-normal">{children}</span>;
}
