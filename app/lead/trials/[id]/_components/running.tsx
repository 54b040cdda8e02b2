import Link from "next/link";
import { env } from "@/lib/env";
import type { Desk } from "@/lib/services/lead/desk";
import type { LeadTrialRow, LeadTrialView } from "@/lib/services/lead/read";
import type { PlanHistory } from "@/lib/services/plan-history";
import { AmendmentList } from "@/lib/ui/components/amendment-list";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { PauseNotice } from "@/lib/ui/components/pause-notice";
import { PlanSheet } from "@/lib/ui/components/plan-sheet";
import { dayWords, momentWords } from "@/lib/ui/format";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { planMessages } from "@/lib/ui/messages/en/plan";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { recipeNames } from "@/lib/ui/recipe-names";
import { Amending } from "./amending";
import { Closing } from "./closing";
import { CountList } from "./count-list";
import { GroupCards } from "./group-cards";
import { Waiting } from "./waiting";

const words = leadMessages.running;
const { work, progress: progressWords } = deskMessages;

interface Props {
  readonly view: LeadTrialView;
  readonly desk: Desk;
  readonly history: PlanHistory;
}

/** The desk of a trial that has opened: who waits for what, the lead's work, how far it has come, its plan and its close. */
export function Running({ view, desk, history }: Props) {
  const { trial, ending } = view;
  const rule = history.plan.earlyCloseRule;
  const earlyRule = planMessages.earlyCloseRule[rule] ?? rule;
  const pause = history.pauses.find(({ resumedAt }) => resumedAt === null);
  return (
    <>
      {trial.closedAt ? (
        <Notice kind="info">{words.closedOn(dayWords(trial.closedAt.toISOString().slice(0, 10)))}</Notice>
      ) : null}
      {pause ? <PauseNotice pause={pause} /> : null}
      {ending?.isOver ? <Notice kind="due">{words.over}</Notice> : null}
      <div className="gap-x-10 lg:grid lg:grid-cols-2">
        <Waiting trialId={trial.id} desk={desk} />
        <div>
          <Work trial={trial} />
          {ending && !ending.isOver ? <Invitation joinCode={trial.joinCode} /> : null}
        </div>
      </div>
      <Progress view={view} desk={desk} />
      <OpenedPlan trial={trial} history={history} />
      {ending ? (
        <Closing trialId={trial.id} endsOn={trial.ends.endsOn} ending={ending} rule={earlyRule} />
      ) : null}
    </>
  );
}

/** Everything a lead does from here, page by page. */
function Work({ trial: { id, slug, status } }: { trial: LeadTrialRow }) {
  const page = `/lead/trials/${id}`;
  const parts = [
    "people",
    "letters",
    "corrections",
    "told",
    "recruit",
    "pause",
    "leads",
    "export",
    "copy",
  ] as const;
  const links = [
    ...[...parts, ...(status === "closed" ? (["release"] as const) : [])].map((part) => ({
      href: `${page}/${part}`,
      label: work[part],
    })),
    { href: `/trials/${slug}`, label: words.publicPage },
    { href: `${page}/design`, label: words.design },
    { href: `${page}/results`, label: words.results },
  ];
  return (
    <nav aria-label={work.title} className="mb-8">
      <h2 className="mb-1">{work.title}</h2>
      <ul className="grid max-w-[44em] grid-cols-2 gap-x-5 border-t border-line sm:grid-cols-3">
        {links.map(({ href, label }) => (
          <li key={href} className="border-b border-line">
            <Link href={href} className="flex min-h-[44px] items-center py-1">
              {label}
            </Link>
          </li>
        ))}
      </ul>
    </nav>
  );
}

function Invitation({ joinCode }: { joinCode: string }) {
  const path = `/join/${joinCode}`;
  return (
    <section>
      <h2 className="mb-2">{words.joinTitle}</h2>
      <p className="mb-3">{words.joinLead}</p>
      <Facts
        items={[
          {
            label: words.address,
            value: (
              <Link href={path} className="break-all">
                {new URL(path, env().NEXTAUTH_URL).href}
              </Link>
            ),
          },
          { label: words.code, value: <code>{joinCode}</code> },
        ]}
      />
    </section>
  );
}

function Progress({ view: { trial, progress, losses }, desk }: Omit<Props, "history">) {
  return (
    <section className="mb-8">
      <h2 className="mb-2">{progressWords.title}</h2>
      {trial.status === "open" ? <p className="mb-4 max-w-[44em]">{words.curtain}</p> : null}
      {progress.length === 0 ? (
        <p className="mb-4">{words.noSets}</p>
      ) : (
        <GroupCards progress={progress} grouping={trial.grouping} />
      )}
      <div className="grid max-w-[60em] gap-x-8 gap-y-5 sm:grid-cols-2">
        <Counted
          title={words.seatsCaption}
          items={trial.regions.map(({ name, seatsTaken, capacity }) => ({
            label: progressWords.seats(name, capacity),
            count: seatsTaken,
          }))}
        />
        <Counted
          title={progressWords.givenUp}
          items={desk.givenUp.map(({ reason, sets }) => ({
            label: setMessages.outing.reasons[reason],
            count: sets,
          }))}
        />
        <Counted
          title={progressWords.losses}
          items={losses.map(({ kind, boxes }) => ({ label: vocabularyMessages.event[kind], count: boxes }))}
        />
      </div>
    </section>
  );
}

function Counted({ title, items }: { title: string; items: readonly { label: string; count: number }[] }) {
  if (items.length === 0) return null;
  return (
    <div>
      <h3 className="mb-1">{title}</h3>
      <CountList items={items} stacked />
    </div>
  );
}

function OpenedPlan({ trial, history }: { trial: LeadTrialRow; history: PlanHistory }) {
  return (
    <section className="mb-8">
      <h2 className="mb-2">{words.plan}</h2>
      <details className="mb-5">
        <summary className="min-h-[44px] cursor-pointer py-2">{words.planLead}</summary>
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
      </details>
      <h3 className="mb-1">{leadMessages.amendments.title}</h3>
      <p className="mb-3 max-w-[44em] text-quiet">{leadMessages.amendments.lead}</p>
      <AmendmentList amendments={history.amendments} />
      {trial.status === "open" ? <Amending trialId={trial.id} /> : null}
    </section>
  );
}

function Fingerprint({ children }: { children: string }) {
  return <span className="break-all font-mono font-normal">{children}</span>;
}
