import type { PoolResult } from "@/shared/schemas/pool";

/** The result as JSON for other programs: figures by band and arm, rank test, losses. Missing numbers are null. */
export function jsonReport(result: PoolResult): string {
  const { engine, data, analysis, cells, rank, loss } = result;
  const { clustered } = rank;
  const report = {
    engine,
    data: { rows: data.rows, analysed: data.analysed, lost: data.lost, sha256: data.sha256 },
    model: analysis?.model ?? null,
    cells: cells.map(({ band, arm, mean }) => ({
      band,
      arm,
      boxes: mean.boxes,
      outings: mean.outings,
      growers: mean.growers,
      estimate: mean.estimate,
      se: mean.se,
      df: mean.df,
      lower: mean.lower,
      upper: mean.upper,
    })),
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
    loss: loss.map(({ arm, boxes, outings, growers, lost, unmeasured, share, lower, upper }) => ({
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
  };
  return `${JSON.stringify(report, null, 2)}\n`;
}
