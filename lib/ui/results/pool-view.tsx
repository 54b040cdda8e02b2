import { Notice } from "@/lib/ui/components/notice";
import { dayWords, percent } from "@/lib/ui/format";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import { seasonMessages, warmthMessages } from "@/lib/ui/messages/en/results-standing";
import type { PoolResult } from "@/shared/schemas/pool";
import { Agreement } from "./agreement";
import { Answers } from "./answers";
import { type ResultsContext, type ResultsTrial, resultsContext } from "./context";
import { Everywhere } from "./everywhere";
import { FactorEffects } from "./factor-effects";
import { Fold } from "./fold";
import { GroupSection } from "./group-section";
import { Growers } from "./growers";
import { Losses } from "./losses";
import { Moisture } from "./moisture";
import { OnThisPage } from "./on-this-page";
import { places } from "./places";
import { Regions } from "./regions";
import { Sensitivity } from "./sensitivity";
import { Source } from "./source";
import { Seasons, seasonBasis, Warmth } from "./standing";
import { UsableGrain } from "./usable-grain";

interface Props {
  trial: ResultsTrial;
  result: PoolResult;
  computedAt: Date;
  /** Whether a newer one is on its way. */
  newerWanted: boolean;
  /** Climate groups of the reader's own places. */
  ownGroups: readonly string[];
}

/** A stored result, for somebody who wants to know what to cook first, and for a referee last. */
export function PoolView({ trial, result, computedAt, newerWanted, ownGroups }: Props) {
  const context = resultsContext(trial, result, ownGroups);
  return (
    <>
      {result.interim ? (
        <Interim interim={result.interim} level={context.level} />
      ) : (
        <ClosedEarly trial={trial} />
      )}
      {newerWanted ? <Notice kind="info">{words.newerWanted}</Notice> : null}
      <Answers context={context} />
      <p className="mb-2 max-w-[42em]">
        {basisWords(context)} {seasonBasis(result.analysis)}
      </p>
      <Notes context={context} />
      {result.data.rows === 0 ? null : <Parts context={context} />}
      <section className="mt-8">
        <h2 className="mb-2">{words.source}</h2>
        <div id={places.source} className="scroll-mt-28">
          <Source context={context} computedAt={computedAt} />
        </div>
      </section>
    </>
  );
}

/** By climate group, and over all of them. */
function Parts({ context }: { context: ResultsContext }) {
  return (
    <>
      <OnThisPage context={context} />
      <h2 className="mb-1">{words.byGroup}</h2>
      {context.result.interim ? null : <p className="mb-4 max-w-[44em] text-quiet">{words.testEach}</p>}
      {context.groups.map((group, place) => (
        <GroupSection key={group.code} group={group} context={context} open={place === 0} />
      ))}
      <AcrossGroups context={context} />
    </>
  );
}

function AcrossGroups({ context }: { context: ResultsContext }) {
  const { result, level } = context;
  const { analysis } = result;
  return (
    <>
      <h2 className="mt-8 mb-2">{words.testAll}</h2>
      <Fold id={places.everywhere} title={words.everywhere.title} open>
        <Everywhere context={context} />
      </Fold>
      {analysis?.seasons ? (
        <Fold id={places.seasons} title={seasonMessages.title} note={seasonMessages.lead}>
          <Seasons by={analysis.seasons} reused={analysis.reusedSpots} context={context} />
        </Fold>
      ) : null}
      {analysis?.warmth ? (
        <Fold id={places.warmth} title={warmthMessages.title} note={warmthMessages.lead}>
          <Warmth by={analysis.warmth} context={context} />
        </Fold>
      ) : null}
      {analysis && analysis.factors.length > 0 ? (
        <Fold id={places.factors} title={words.factors.title} note={words.factors.lead}>
          <FactorEffects effects={analysis.factors} context={context} />
        </Fold>
      ) : null}
      {analysis && analysis.moisture.length > 0 ? (
        <Fold id={places.moisture} title={words.moisture.title} note={words.moisture.lead}>
          <Moisture curves={analysis.moisture} context={context} />
        </Fold>
      ) : null}
      {analysis?.usable ? (
        <Fold id={places.usable} title={words.usable.title} note={words.usable.lead}>
          <UsableGrain usable={analysis.usable} context={context} />
        </Fold>
      ) : null}
      {analysis && analysis.sensitivity.length > 0 ? (
        <Fold id={places.sensitivity} title={words.sensitivity.title} note={words.sensitivity.lead}>
          <Sensitivity analysis={analysis} context={context} />
        </Fold>
      ) : null}
      <Fold id={places.losses} title={words.lossTitle}>
        <Losses context={context} />
      </Fold>
      {analysis ? (
        <Fold id={places.agreement} title={words.agreement.title} note={words.agreement.lead}>
          <Agreement agreement={analysis.agreement} level={level} />
        </Fold>
      ) : null}
      {analysis && analysis.growers.length > 0 ? (
        <Fold id={places.growers} title={words.growers.title} note={words.growers.lead}>
          <Growers analysis={analysis} context={context} />
        </Fold>
      ) : null}
      {result.regions.length > 0 ? (
        <Fold id={places.regions} title={words.byRegion} note={words.byRegionNote}>
          <Regions context={context} />
        </Fold>
      ) : null}
    </>
  );
}

function Notes({ context: { result } }: { context: ResultsContext }) {
  if (result.notes.length === 0) return null;
  return (
    <ul className="mb-6 max-w-[44em] list-disc space-y-1 pl-5 text-quiet">
      {result.notes.map((note) => (
        <li key={note}>{words.note[note]}</li>
      ))}
    </ul>
  );
}

function Interim({
  interim: { look, looks, fraction, by },
  level,
}: {
  interim: NonNullable<ResultsContext["result"]["interim"]>;
  level: string;
}) {
  return (
    <Notice kind="due">
      <p>{words.interimTitle}</p>
      <p className="font-normal">{words.interim(look, looks, percent(fraction), by, level)}</p>
    </Notice>
  );
}

/** Closing before the planned end is allowed by the plan's own rule, and said. */
function ClosedEarly({ trial }: { trial: ResultsTrial }) {
  const closedOn = trial.closedAt?.toISOString().slice(0, 10);
  if (!closedOn || closedOn >= trial.plan.endsOn) return null;
  return <Notice kind="info">{words.closedEarly(dayWords(closedOn), dayWords(trial.plan.endsOn))}</Notice>;
}

function basisWords({ result: { data } }: ResultsContext): string {
  const { rows, growers, outings, lost } = data;
  if (rows === null || growers === null || outings === null || lost === null) return words.basisWithheld;
  return words.basis(rows, growers, outings, lost);
}
