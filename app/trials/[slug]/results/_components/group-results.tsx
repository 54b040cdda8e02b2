import { GrowthBars } from "@/lib/ui/charts/growth-bars";
import { MeanIntervals } from "@/lib/ui/charts/mean-intervals";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";
import type { StoredPlan } from "@/shared/schemas/plan";
import type { PoolArmSummary, PoolRank, PoolWarning } from "@/shared/schemas/pool";
import { ArmTables } from "./arm-tables";
import { headline, meetsMinimum } from "./headline";
import { RankTest } from "./rank-test";

interface Props {
  /** Where links to it lead. */
  id: string;
  /** A climate group or a region, in words. */
  title: string;
  note?: string;
  /** Recipe names by arm code. */
  names: ReadonlyMap<string, string>;
  summaries: readonly PoolArmSummary[];
  /** Where recipes were tested against each other. */
  rank?: PoolRank;
  minimum: StoredPlan["minimum"];
  /** Whether it stands open from the start; the others unfold, so that the page stays short on a phone. */
  open?: boolean;
}

/** One group's results: a sentence, two pictures, the same in numbers, the test, what to know. */
export function GroupResults({ id, title, note, names, summaries, rank, minimum, open }: Props) {
  const sorted = [...summaries].sort((a, b) => (b.mean.estimate ?? -1) - (a.mean.estimate ?? -1));
  const nameOf = (arm: string) => names.get(arm) ?? arm;
  const why = (reason: PoolArmSummary["mean"]["reason"]) => (reason ? words.reason[reason] : null);
  const thin = sorted.filter((summary) => summary.mean.estimate !== null && !meetsMinimum(summary, minimum));
  return (
    <details id={id} open={open} className="group mb-4 scroll-mt-4 border-t-2 border-ink pt-3">
      <summary className="min-h-11 cursor-pointer list-none">
        <h3 className="text-[1.125rem]">
          <span aria-hidden="true" className="mr-2 inline-block text-act group-open:rotate-90">
            ▸
          </span>
          {title}
        </h3>
        {note ? <span className="block text-quiet">{note}</span> : null}
        {rank ? (
          <span className="my-2 block max-w-[30em] text-[1.25rem] leading-snug">
            {headline(sorted, rank, nameOf, minimum)}
          </span>
        ) : null}
      </summary>
      <div className="mt-4 grid gap-x-11 *:min-w-0 lg:grid-cols-2">
        <div>
          <GrowthBars
            bars={sorted.map(({ arm, distribution }) => ({
              name: nameOf(arm),
              classes: distribution.classes,
              reason: why(distribution.reason),
            }))}
          />
          <MeanIntervals
            dots={sorted.map(({ arm, mean }) => ({
              name: nameOf(arm),
              mean: mean.estimate,
              lower: mean.lower,
              upper: mean.upper,
              reason: why(mean.reason),
            }))}
          />
        </div>
        <div>
          <p className="mb-2 font-semibold">{words.inNumbers}</p>
          <ArmTables where={title} summaries={sorted} nameOf={nameOf} />
          {thin.length > 0 ? (
            <p className="mb-3">{words.belowPlan(thin.map(({ arm }) => nameOf(arm)))}</p>
          ) : null}
          {rank ? <RankTest rank={rank} /> : null}
          <Warnings summaries={summaries} />
        </div>
      </div>
    </details>
  );
}

function Warnings({ summaries }: { summaries: readonly PoolArmSummary[] }) {
  const all = new Set<PoolWarning>(
    summaries.flatMap(({ mean, cleanTake }) => [...mean.warnings, ...cleanTake.warnings]),
  );
  if (all.size === 0) return null;
  return (
    <ul className="list-disc space-y-1 pl-5 text-[0.9375rem] text-quiet">
      {[...all].map((warning) => (
        <li key={warning}>{words.warning[warning]}</li>
      ))}
    </ul>
  );
}
