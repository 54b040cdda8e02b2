import type { PoolResult } from "@/shared/schemas/pool";
import type { PoolReport } from "@/shared/schemas/pool-report";

/** The result as JSON text for other programs, by `poolReportSchema`: the same text whichever process worked it out. */
export function jsonReport(result: PoolResult): string {
  const { engine, data, analysis, rank, loss, level } = result;
  if (!analysis) throw new Error("A result pooled just now has an analysis.");
  const { clustered } = rank;
  const report: PoolReport = {
    engine,
    data: { rows: data.rows, analysed: data.analysed, lost: data.lost, sha256: data.sha256 },
    asked: {
      level,
      margin: analysis.margin,
      reference: analysis.againstReference[0]?.reference ?? null,
      seed: analysis.seed,
    },
    model: analysis.model,
    cells: analysis.cells.map(({ chanceBestNextSet: _, ...cell }) => cell),
    contrasts: analysis.contrasts.map(({ method: _, fixedOuting: __, shrunken: ___, ...one }) => one),
    best: analysis.best,
    againstReference: analysis.againstReference,
    prediction: analysis.prediction,
    interaction: analysis.interaction,
    rank: {
      chiSquare: rank.chiSquare,
      df: rank.df,
      p: rank.p,
      clustered: {
        statistic: clustered.statistic,
        df1: clustered.df1,
        df2: clustered.df2,
        p: clustered.p,
        method: clustered.method,
      },
    },
    loss: {
      arms: loss.map(({ arm, boxes, outings, growers, lost, unmeasured, share, lower, upper }) => ({
        arm,
        boxes,
        outings,
        growers,
        lost,
        unmeasured,
        share,
        lower,
        upper,
      })),
      test: analysis.lossTest,
    },
    sensitivity:
      analysis.sensitivity.length > 0 ? { refits: analysis.sensitivity, growers: analysis.growers } : null,
  };
  return `${JSON.stringify(report, inOrderOfNames, 2)}\n`;
}

/** A replacer for JSON.stringify: a schema that a result was read by leaves its members in an order of its own. */
function inOrderOfNames(_name: string, value: unknown): unknown {
  if (value === null || typeof value !== "object" || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}
