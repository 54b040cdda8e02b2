import { GrowthBars } from "@/lib/ui/charts/growth-bars";
import { MeanIntervals } from "@/lib/ui/charts/mean-intervals";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { PoolArmSummary } from "@/shared/schemas/pool";
import type { ClimateGroup } from "@/shared/vocabulary/climate";
import { answerOf, meetsMinimum } from "./answer";
import { ArmTables, ModelTable } from "./arm-tables";
import { BestHere } from "./best-here";
import type { ResultsContext } from "./context";
import { type Reason, why } from "./figures";
import { Fold } from "./fold";
import { GroupStatistics } from "./group-statistics";
import { NotKnown } from "./not-known";
import { places } from "./places";
import { RankTest } from "./rank-test";

interface Props {
  group: ClimateGroup;
  context: ResultsContext;
  open: boolean;
}

/** One climate group: pictures, what isn't known, the same in numbers, and what a statistician asks for. */
export function GroupSection({ group, context, open }: Props) {
  const { result, nameOf, minimum, level, own } = context;
  const { analysis } = result;
  const { code } = group;
  const where = vocabularyMessages.climateGroupName(group);
  const rank = result.rankByBand.find(({ band }) => band === code);
  const summaries = sorted(code, context);
  const thin = summaries.filter(({ mean }) => mean.estimate !== null && !meetsMinimum(mean, minimum));
  const behind = analysis && !result.interim ? answerOf(code, analysis, minimum).behind : [];
  return (
    <Fold
      id={places.group(code)}
      title={where}
      note={`${vocabularyMessages.climateGroupClasses(group)}${own.has(code) ? ` · ${words.ownGroup}` : ""}`}
      open={open}
    >
      <div className="grid gap-x-11 *:min-w-0 lg:grid-cols-2">
        <div>
          <MeanIntervals
            level={level}
            dots={summaries.map((summary) => ({
              name: nameOf(summary.arm),
              behind: behind.includes(summary.arm),
              ...meanOf(summary, code, context),
            }))}
          />
          <Bars summaries={summaries} nameOf={nameOf} />
        </div>
        <div>
          {analysis ? <BestHere band={code} analysis={analysis} context={context} /> : null}
          <NotKnown band={code} context={context} />
          {thin.length > 0 ? (
            <p className="mb-3">{words.belowPlan(thin.map(({ arm }) => nameOf(arm)))}</p>
          ) : null}
        </div>
      </div>
      <Fold kind="detail" title={words.inNumbers}>
        {analysis ? <ModelTable where={where} band={code} analysis={analysis} context={context} /> : null}
        <ArmTables where={where} summaries={summaries} context={context} />
        <Warnings summaries={summaries} />
      </Fold>
      <Fold kind="detail" title={words.statistician.title} note={words.statistician.lead}>
        {analysis ? (
          <GroupStatistics band={code} where={where} analysis={analysis} context={context} />
        ) : null}
        {rank ? <RankTest rank={rank} showsP={!result.interim} /> : null}
      </Fold>
    </Fold>
  );
}

function Bars({
  summaries,
  nameOf,
}: {
  summaries: readonly PoolArmSummary[];
  nameOf: (arm: string) => string;
}) {
  return (
    <GrowthBars
      bars={summaries.map(({ arm, distribution }) => ({
        name: nameOf(arm),
        classes: distribution.classes,
        reason: distribution.reason ? why(distribution.reason) : null,
      }))}
    />
  );
}

function Warnings({ summaries }: { summaries: readonly PoolArmSummary[] }) {
  const all = new Set(summaries.flatMap(({ mean, cleanTake }) => [...mean.warnings, ...cleanTake.warnings]));
  if (all.size === 0) return null;
  return (
    <ul className="mb-4 list-disc space-y-1 pl-5 text-[0.9375rem] text-quiet">
      {[...all].map((warning) => (
        <li key={warning}>{words.warning[warning]}</li>
      ))}
    </ul>
  );
}

/** By what is drawn, highest first. */
function sorted(band: string, context: ResultsContext): PoolArmSummary[] {
  const height = (summary: PoolArmSummary) => meanOf(summary, band, context).mean ?? -1;
  return context.result.cells.filter((cell) => cell.band === band).sort((a, b) => height(b) - height(a));
}

interface DrawnMean {
  readonly mean: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
  readonly reason: string | null;
}

/** By the model; the plain mean over growers where the model has none, unless that was worked out by it. */
function meanOf(summary: PoolArmSummary, band: string, { result }: ResultsContext): DrawnMean {
  const { analysis } = result;
  if (!analysis || analysis.cells.length === 0) return plainMean(summary);
  const cell = analysis.cells.find((one) => one.band === band && one.arm === summary.arm);
  if (!cell) return drawn({ estimate: null, lower: null, upper: null }, summary.mean.reason ?? "NO_BOXES");
  return drawn(cell, cell.reason);
}

function plainMean({ mean }: PoolArmSummary): DrawnMean {
  return drawn(mean, mean.reason);
}

function drawn(
  { estimate, lower, upper }: { estimate: number | null; lower: number | null; upper: number | null },
  reason: Reason | null,
): DrawnMean {
  return { mean: estimate, lower, upper, reason: reason ? why(reason) : null };
}
