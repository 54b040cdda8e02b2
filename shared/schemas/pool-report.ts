import { z } from "zod";
import { poolResultSchema } from "./pool";
import { poolAnalysisSchema } from "./pool-analysis";

const analysis = poolAnalysisSchema.shape;
const { sensitivity, interaction } = analysis;
const cell = analysis.cells.element.omit({ chanceBestNextSet: true });
const contrast = analysis.contrasts.element.omit({ method: true, fixedOuting: true, shrunken: true });
const data = poolResultSchema.shape.data.pick({ rows: true, analysed: true, lost: true, sha256: true });
const rank = poolResultSchema.shape.rank.pick({ chiSquare: true, df: true, p: true });
const clustered = poolResultSchema.shape.rank.shape.clustered.pick({
  statistic: true,
  df1: true,
  df2: true,
  p: true,
  method: true,
});
const lossOfArm = poolResultSchema.shape.loss.element.pick({
  arm: true,
  boxes: true,
  outings: true,
  growers: true,
  lost: true,
  unmeasured: true,
  share: true,
  lower: true,
  upper: true,
});

/** What `grainlot pool --json` prints. */
export const poolReportSchema = z.strictObject({
  engine: z.string(),
  data: z.strictObject(data.shape),
  /** What the command was asked. */
  asked: z.strictObject({
    level: analysis.level,
    margin: analysis.margin,
    reference: z.string().nullable(),
    seed: analysis.seed,
  }),
  model: z.strictObject(analysis.model.shape),
  cells: z.array(z.strictObject(cell.shape)),
  contrasts: z.array(z.strictObject(contrast.shape)),
  best: analysis.best,
  againstReference: analysis.againstReference,
  prediction: analysis.prediction,
  interaction,
  rank: z.strictObject({ ...rank.shape, clustered: z.strictObject(clustered.shape) }),
  loss: z.strictObject({ arms: z.array(z.strictObject(lossOfArm.shape)), test: analysis.lossTest }),
  /** Null unless asked for. */
  sensitivity: z.strictObject({ refits: sensitivity, growers: analysis.growers }).nullable(),
});
export type PoolReport = z.infer<typeof poolReportSchema>;

const DESCRIPTION = [
  "Numbers are finite or null; where one is null, `reason` beside it says why. Differences are first − second.",
  "sha256 is of the canonical rows: one line of canonical JSON (RFC 8785) per box with the members arm, available",
  "(where stated), band, box, cleanTake, grower, outcome, outing, region, status, unknown ones null, a lost box's",
  "outcome null, lines in UTF-16 code-unit order, each ended by a line feed.",
  "cells: means by the model with t intervals; chanceBest is of the mean, null where a cell has fewer than 5 boxes or",
  "3 growers. contrasts: lower, upper and p are Tukey–Kramer's, simultaneous within the band. best: Hsu's comparisons",
  "with the best; againstReference: Dunnett's; prediction: what a new grower would see, intervals of single pairs.",
  "rank: chiSquare and p are the plain stratified form over the trial, clustered has the grower as the unit.",
  "A variance is null where its term was left out or can't be told from another; model.warnings say which.",
  "sensitivity.growers: of one pair per band, the reference and the best other arm or the two best; shiftWithout is one",
  "step at the fitted variances.",
].join(" ");

/** The report's form as a JSON Schema (draft 2020-12), for programs that don't share our code. */
export function poolReportJsonSchema(): object {
  const { $schema, ...schema } = z.toJSONSchema(poolReportSchema);
  return { $schema, title: "Grainlot pooled result, form 2", description: DESCRIPTION, ...schema };
}
