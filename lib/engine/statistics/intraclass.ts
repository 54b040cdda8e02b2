/** Shrout & Fleiss' six intraclass correlations; (·,1) of a single grader, (·,k) of the mean of all k. */
export interface IntraclassCorrelations {
  /** Every box graded by graders of its own. */
  readonly icc11: number;
  /** The same graders, drawn from many. */
  readonly icc21: number;
  /** These very graders; a constant difference between them does no harm. */
  readonly icc31: number;
  readonly icc1k: number;
  readonly icc2k: number;
  readonly icc3k: number;
}

/**
 * From a full table (`ratings`[box][grader]) by mean squares (Shrout & Fleiss 1979, Psychological Bulletin
 * 86:420–428). Null with fewer than two boxes or graders, or where all boxes have the same mean and spread nothing.
 * Throws when a row is longer or shorter than the first.
 */
export function intraclassCorrelations(
  ratings: readonly (readonly number[])[],
): IntraclassCorrelations | null {
  const n = ratings.length;
  const k = ratings[0]?.length ?? 0;
  if (n < 2 || k < 2) return null;
  if (ratings.some((row) => row.length !== k))
    throw new RangeError("Every box needs one rating by each of the graders; leave incomplete boxes out.");
  const boxMeans = ratings.map((row) => mean(row));
  const graderMeans = ratings[0]!.map((_, j) => mean(ratings.map((row) => row[j]!)));
  const grand = mean(boxMeans);
  const between = k * squares(boxMeans, grand);
  const graders = n * squares(graderMeans, grand);
  const total = ratings.reduce((sum, row) => sum + squares(row, grand), 0);
  const BMS = between / (n - 1);
  const JMS = graders / (k - 1);
  const WMS = (total - between) / (n * (k - 1));
  const EMS = (total - between - graders) / ((n - 1) * (k - 1));
  if (!(BMS > 0)) return null;
  return {
    icc11: (BMS - WMS) / (BMS + (k - 1) * WMS),
    icc21: (BMS - EMS) / (BMS + (k - 1) * EMS + (k * (JMS - EMS)) / n),
    icc31: (BMS - EMS) / (BMS + (k - 1) * EMS),
    icc1k: (BMS - WMS) / BMS,
    icc2k: (BMS - EMS) / (BMS + (JMS - EMS) / n),
    icc3k: (BMS - EMS) / BMS,
  };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, x) => sum + x, 0) / values.length;
}

function squares(values: readonly number[], centre: number): number {
  return values.reduce((sum, x) => sum + (x - centre) ** 2, 0);
}
