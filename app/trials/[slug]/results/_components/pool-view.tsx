import type { TrialResults, TrialView } from "@/lib/services/read-trials";
import { DataTable } from "@/lib/ui/components/data-table";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { dayWords, momentWords, percent, whole } from "@/lib/ui/format";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { PoolResult } from "@/shared/schemas/pool";
import { GroupResults } from "./group-results";
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
  return (
    <>
      <ClosedEarly trial={trial} />
      {newerWanted ? <Notice kind="info">{words.newerWanted}</Notice> : null}
      <p className="mb-2 max-w-[42em]">
        {basisWords(result)} {words.thisSeason}
      </p>
      <ul className="mb-6 max-w-[44em] list-disc space-y-1 pl-5 text-quiet">
        {result.notes.map((note) => (
          <li key={note}>{words.note[note]}</li>
        ))}
      </ul>
      <section className="mb-8">
        <h2 className="mb-2">{words.testAll}</h2>
        <p className="mb-2 text-quiet">{words.testAllNote}</p>
        <RankTest rank={result.rank} />
      </section>
      <h2 className="mb-1">{words.byGroup}</h2>
      <p className="mb-4 max-w-[44em] text-quiet">{words.testEach}</p>
      {trial.grouping
        .filter((group) => result.cells.some(({ band }) => band === group.code))
        .map((group) => (
          <GroupResults
            key={group.code}
            title={vocabularyMessages.climateGroupName(group)}
            note={vocabularyMessages.climateGroupClasses(group)}
            names={names}
            summaries={result.cells.filter(({ band }) => band === group.code)}
            rank={result.rankByBand.find(({ band }) => band === group.code)}
            minimum={minimum}
          />
        ))}
      {result.regions.length > 0 ? (
        <>
          <h2 className="mb-1">{words.byRegion}</h2>
          <p className="mb-4 max-w-[44em] text-quiet">{words.byRegionNote}</p>
          {[...new Set(result.regions.map(({ region }) => region))].map((code) => (
            <GroupResults
              key={code}
              title={trial.regions.find((region) => region.code === code)?.name ?? code}
              names={names}
              summaries={result.regions.filter(({ region }) => region === code)}
              minimum={minimum}
            />
          ))}
        </>
      ) : null}
      <h2 className="mb-2">{words.lossTitle}</h2>
      <LossTable result={result} nameOf={nameOf} />
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

function basisWords({ data }: PoolResult): string {
  const { rows, growers, outings, lost } = data;
  if (rows === null || growers === null || outings === null || lost === null) return words.basisWithheld;
  return words.basis(rows, growers, outings, lost);
}

function LossTable({ result, nameOf }: { result: PoolResult; nameOf: (arm: string) => string }) {
  const { columns } = words;
  return (
    <div className="max-w-[52em]">
      <DataTable
        caption={words.lossCaption}
        columns={[
          { key: "recipe", label: columns.recipe },
          { key: "share", label: words.lossShare, numeric: true },
          { key: "interval", label: columns.interval, numeric: true },
          { key: "lost", label: columns.lost, numeric: true },
          { key: "unmeasured", label: columns.unmeasured, numeric: true },
          { key: "boxes", label: columns.boxes, numeric: true },
          { key: "sets", label: columns.sets, numeric: true },
          { key: "growers", label: columns.growers, numeric: true },
        ]}
        rows={result.loss.map(
          ({ arm, share, lower, upper, reason, lost, unmeasured, boxes, outings, growers }) => ({
            recipe: nameOf(arm),
            share: share === null ? (reason ? words.reason[reason] : words.notThere) : percent(share),
            interval:
              lower === null || upper === null ? words.notThere : words.range(percent(lower), percent(upper)),
            lost: count(lost),
            unmeasured: count(unmeasured),
            boxes: count(boxes),
            sets: count(outings),
            growers: count(growers),
          }),
        )}
      />
    </div>
  );
}

function count(value: number | null): string {
  return value === null ? words.notThere : whole(value);
}
