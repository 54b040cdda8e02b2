import { decimal, whole } from "@/lib/ui/format";
import { resultMessages as words } from "@/lib/ui/messages/en/results";
import type { PoolClusteredRank, PoolRank } from "@/shared/schemas/pool";
import { pWords } from "./figures";

const ALPHA = 0.05;

/** Whether recipes differ, by the test that counts each grower once; the one over sets stands below it. No p before a trial's end. */
export function RankTest({ rank, showsP }: { rank: PoolRank; showsP: boolean }) {
  if (!showsP) return <p className="mb-5">{words.testNone(words.reason.INTERIM)}</p>;
  const { clustered, boxes, outings, chiSquare, df, p } = rank;
  return (
    <div className="mb-5 max-w-[40em]">
      <h4 className="font-bold">{words.testTitle}</h4>
      <p>{verdict(clustered)}</p>
      {clustered.p === null ? null : (
        <p className="text-[0.9375rem] text-quiet">
          {methodWords(clustered)}; {pWords(clustered.p)}.
          {boxes !== null && outings !== null && clustered.growers !== null
            ? ` ${words.testBase(whole(boxes), whole(outings), whole(clustered.growers))}.`
            : null}
        </p>
      )}
      {chiSquare === null || df === null || p === null ? null : (
        <p className="text-[0.9375rem] text-quiet">
          {words.unclustered(decimal(chiSquare, 2), whole(df), pWords(p))}.
        </p>
      )}
      {[...new Set([...rank.warnings, ...clustered.warnings])].map((warning) => (
        <p key={warning} className="text-[0.9375rem] text-quiet">
          {words.warning[warning]}
        </p>
      ))}
    </div>
  );
}

function verdict({ p, reason }: PoolClusteredRank): string {
  if (p === null) return reason ? words.testNone(words.reason[reason]) : words.says.nothing;
  return p < ALPHA ? words.testYes : words.testNo;
}

function methodWords({ method, statistic, df1, df2, permutations }: PoolClusteredRank): string {
  const value = statistic === null ? words.notThere : decimal(statistic, 2);
  return method === "HOTELLING_F"
    ? words.testMethod.HOTELLING_F(value, String(df1 ?? ""), String(df2 ?? ""))
    : words.testMethod.PERMUTATION_WITHIN_GROWERS(whole(permutations ?? 0), value);
}
