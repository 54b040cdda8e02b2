import { describe, expect, it } from "vitest";
import { textReport } from "@/lib/cli/pool/text-report";
import { type RandomSource, seededSource } from "@/lib/engine/random/source";
import { RANDOM_TERMS } from "@/lib/engine/statistics/mixed/types";
import { poolColumns } from "@/lib/engine/statistics/pool-columns";
import { interimResult } from "@/lib/engine/statistics/pool-interim";
import { jsonReport } from "@/lib/engine/statistics/pool-report";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { withholdSmallCells } from "@/lib/engine/statistics/withholding";
import { type PoolRow, poolResultSchema } from "@/shared/schemas/pool";
import { poolReportSchema } from "@/shared/schemas/pool-report";

/** Few growers, unlinked arms, single boxes, repeated arms, one value, two values, any values, most of it missing. */
function oddTrial(source: RandomSource): PoolRow[] {
  const arms = 1 + source.below(5);
  const outcomeOf = [() => source.below(2), () => source.below(5), () => source.unit() * 300 - 100, () => 3][
    source.below(4)
  ]!;
  return Array.from({ length: 1 + source.below(12) }, (_, g) =>
    Array.from({ length: 1 + source.below(3) }, (__, o) => {
      const band = `b${source.below(3)}`;
      const from = source.below(3);
      return Array.from({ length: 1 + source.below(5) }, (): PoolRow => {
        const lost = source.below(8) === 0;
        const arm = `a${Math.min(arms - 1, from + source.below(2))}`;
        const outcome = lost || source.below(10) === 0 ? null : outcomeOf();
        const cleanTake = lost || source.below(3) === 0 ? null : source.below(2) === 1;
        const status = lost ? "lost" : "graded";
        return { grower: `g${g}`, outing: `g${g}o${o}`, band, arm, outcome, status, cleanTake };
      });
    }).flat(),
  ).flat();
}

describe("odd trials", () => {
  it.each(Array.from({ length: 30 }, (_, i) => i))(
    "are pooled and told without a fault or a number that is none: %i",
    (i) => {
      const source = seededSource(`odd trial ${i}`);
      const pooled = poolColumns(poolTable(oddTrial(source)), undefined, {
        permutations: 19,
        sensitivity: true,
        byGrower: true,
        reference: source.below(2) === 0 ? "a0" : null,
        margin: 0.5,
        random: RANDOM_TERMS.filter(() => source.below(3) > 0),
      });
      const published = withholdSmallCells(pooled);
      const interim = interimResult(published, { look: 1, looks: 2, fraction: 0.5, by: "boxes" });
      for (const result of [pooled.result, published, interim]) {
        // JSON writes NaN and infinity as null, so what comes back equal held none.
        expect(JSON.parse(JSON.stringify(result))).toEqual(result);
        poolResultSchema.parse(result);
      }
      poolReportSchema.parse(JSON.parse(jsonReport(pooled.result)));
      expect(textReport(pooled.result, "odd.csv")).not.toMatch(/NaN|undefined|null|Infinity/);
    },
  );
});
