import type { TrialResults, TrialView } from "@/lib/services/read-trials";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { dayWords, momentWords } from "@/lib/ui/format";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { PoolResult } from "@/shared/schemas/pool";
import { GroupResults } from "./group-results";
import { LossTable } from "./loss-table";
import { RankTest } from "./rank-test";

interface Props {
  trial: TrialView;
  final: Extract<TrialResults, { state: "out" }>;
}

/** A stored result: climate groups first, since only there recipes are compared fairly. */
export function PoolView({ trial, final }: Props) {
  const { published: result, computedAt, newerWanted } = final;
  const names = recipeNames(trial);
  const nameOf = (arm: string) => names.get(arm) ?? arm;
  const { minimum } = trial.plan;
  const groups = trial.grouping.filter((group) => result.cells.some(({ band }) => band === group.code));
  const empty = trial.grouping
    .filter((group) => !groups.includes(group))
    .map(vocabularyMessages.climateGroupName);
  const regions = [...new Set(result.regions.map(({ region }) => region))].map((code) => ({
    code,
    name: trial.regions.find((region) => region.code === code)?.name ?? code,
  }));
  return (
    <>
      <ClosedEarly trial={trial} />
      {newerWanted ? <Notice kind="info">{words.newerWanted}</Notice> : null}
      <p className="mb-2 max-w-[42em]">
        {basisWords(result)} {words.thisSeason}
      </p>
      <Notes result={result} />
      <OnThisPage
        links={[
          ...groups.map((group) => ({
            id: groupId(group.code),
            name: vocabularyMessages.climateGroupName(group),
          })),
          ...regions.map(({ code, name }) => ({ id: regionId(code), name })),
        ]}
      />
      <section className="mb-8">
        <h2 className="mb-2">{words.testAll}</h2>
        <p className="mb-2 text-quiet">{words.testAllNote}</p>
        <RankTest rank={result.rank} />
      </section>
      <h2 className="mb-1">{words.byGroup}</h2>
      <p className="mb-4 max-w-[44em] text-quiet">{words.testEach}</p>
      {empty.length > 0 ? <p className="mb-4">{words.noBoxesFrom(empty)}</p> : null}
      {groups.map((group, index) => (
        <GroupResults
          key={group.code}
          open={index === 0}
          id={groupId(group.code)}
          title={vocabularyMessages.climateGroupName(group)}
          note={vocabularyMessages.climateGroupClasses(group)}
          names={names}
          summaries={result.cells.filter(({ band }) => band === group.code)}
          rank={result.rankByBand.find(({ band }) => band === group.code)}
          minimum={minimum}
        />
      ))}
      {regions.length > 0 ? (
        <>
          <h2 className="mb-1">{words.byRegion}</h2>
          <p className="mb-4 max-w-[44em] text-quiet">{words.byRegionNote}</p>
          {regions.map(({ code, name }) => (
            <GroupResults
              key={code}
              id={regionId(code)}
              title={name}
              names={names}
              summaries={result.regions.filter(({ region }) => region === code)}
              minimum={minimum}
            />
          ))}
        </>
      ) : null}
      <h2 className="mb-2">{words.lossTitle}</h2>
      <LossTable result={result} nameOf={nameOf} />
      <Source result={result} computedAt={computedAt} />
    </>
  );
}

function Notes({ result }: { result: PoolResult }) {
  if (result.notes.length === 0) return null;
  return (
    <ul className="mb-6 max-w-[44em] list-disc space-y-1 pl-5 text-quiet">
      {result.notes.map((note) => (
        <li key={note}>{words.note[note]}</li>
      ))}
    </ul>
  );
}

function OnThisPage({ links }: { links: readonly { readonly id: string; readonly name: string }[] }) {
  return (
    <nav aria-label={words.onThisPage} className="mb-8">
      <ul className="flex flex-wrap gap-x-5">
        {links.map(({ id, name }) => (
          <li key={id}>
            <a href={`#${id}`} className="inline-flex min-h-[44px] items-center">
              {name}
            </a>
          </li>
        ))}
      </ul>
    </nav>
  );
}

/** What it takes to trace a figure. */
function Source({ result, computedAt }: { result: PoolResult; computedAt: Date }) {
  return (
    <>
      <h2 className="mb-2">{words.source}</h2>
      <Facts
        items={[
          {
            label: words.cut,
            value: <span className="break-all font-mono font-normal">{result.data.sha256}</span>,
          },
          { label: words.workedOut, value: momentWords(computedAt) },
          { label: words.engine, value: result.engine },
          { label: words.method, value: words.methodWords },
        ]}
      />
    </>
  );
}

/** Closing before the planned end is allowed by the plan's own rule, and said. */
function ClosedEarly({ trial }: { trial: TrialView }) {
  const closedOn = trial.closedAt?.toISOString().slice(0, 10);
  if (!closedOn || closedOn >= trial.plan.endsOn) return null;
  return <Notice kind="info">{words.closedEarly(dayWords(closedOn), dayWords(trial.plan.endsOn))}</Notice>;
}

/** Names by arm code; recipes of one name are told apart by their codes. */
function recipeNames({ recipes }: TrialView): ReadonlyMap<string, string> {
  const plain = recipes.map(({ code, content }) => ({ code, name: vocabularyMessages.recipeName(content) }));
  return new Map(
    plain.map(({ code, name }) => {
      const isShared = plain.some((other) => other.code !== code && other.name === name);
      return [code, isShared ? words.nameWithCode(name, code) : name];
    }),
  );
}

function groupId(code: string): string {
  return `group-${code}`;
}

function regionId(code: string): string {
  return `region-${code}`;
}

function basisWords({ data }: PoolResult): string {
  const { rows, growers, outings, lost } = data;
  if (rows === null || growers === null || outings === null || lost === null) return words.basisWithheld;
  return words.basis(rows, growers, outings, lost);
}
