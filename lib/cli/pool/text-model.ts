import type { PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { number, reasonWords, sensitivityWords, signed, warningWords } from "./text-words";

/** How the model was fitted. */
export function modelWords({ model, seed }: PoolAnalysis): string[] {
  const { variance, random, reason } = model;
  if (reason) return ["The model", `could not be fitted: ${reasonWords[reason]}`];
  const sd = (value: number | null): string => (value === null ? "-" : Math.sqrt(value).toFixed(3));
  return [
    `The model: recipe x climate group, random ${random.length > 0 ? random.join(", ") : "nothing"} (REML, Satterthwaite)`,
    `standard deviations: outing ${sd(variance.outing)}, grower ${sd(variance.grower)}, grower x recipe ${sd(variance.growerArm)}, box ${sd(variance.residual)}`,
    `criterion ${model.criterion?.toFixed(3) ?? "-"} after ${model.evaluations} evaluations, seed ${seed}`,
    ...model.warnings.map((warning) => warningWords[warning]),
  ];
}

/** What other assumptions change, and which growers move most; nothing where it wasn't asked for. */
export function sensitivityTable({ sensitivity, contrasts, growers }: PoolAnalysis): string[] {
  if (sensitivity.length === 0) return [];
  const width = Math.max(...sensitivity.map(({ kind }) => sensitivityWords[kind].length));
  const lines = ["What if? The largest change of any difference"];
  for (const { kind, contrasts: own, reason } of sensitivity) {
    const largest = own
      .map((one) => {
        const main = contrasts.find(
          ({ band, first, second }) => band === one.band && first === one.first && second === one.second,
        );
        return { ...one, change: one.difference! - (main?.difference ?? one.difference!) };
      })
      .reduce<{ change: number; band: string; first: string; second: string } | null>(
        (most, one) => (most && Math.abs(most.change) >= Math.abs(one.change) ? most : one),
        null,
      );
    const words = largest
      ? `${signed(largest.change)}  (${largest.band}, ${largest.first} - ${largest.second})`
      : reasonWords[reason ?? "NOT_LINKED"];
    lines.push(`${sensitivityWords[kind].padEnd(width)}  ${words}`);
  }
  return [...lines, ...growerLines(growers)];
}

function growerLines(growers: PoolAnalysis["growers"]): string[] {
  const pairs = new Map<string, PoolAnalysis["growers"][number]>();
  for (const one of growers) {
    const key = JSON.stringify([one.band, one.first, one.second]);
    const most = pairs.get(key);
    if (!most || Math.abs(one.shiftWithout ?? 0) > Math.abs(most.shiftWithout ?? 0)) pairs.set(key, one);
  }
  return [...pairs.values()].map(
    ({ band, first, second, grower, shiftWithout, weight }) =>
      `without ${grower}, who moves ${first} - ${second} in ${band} most: ${signed(shiftWithout)} (weight ${number(weight)})`,
  );
}
