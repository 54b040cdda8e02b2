import type { PoolAnalysis, PoolContrast } from "@/shared/schemas/pool-analysis";
import { levelWords, number, pValue, reasonWords, signed, verdictWords } from "./text-words";

/** With more pairs in a climate group only those with its best recipe are printed. */
const PAIRS_PRINTED = 15;

/** Differences between recipes by climate group, with verdicts. */
export function contrastTable({ contrasts, cells, level, margin }: PoolAnalysis): string[] {
  if (contrasts.length === 0) return [];
  const bands = [...new Set(contrasts.map(({ band }) => band))];
  const printed = bands.map((band) => ({ band, own: pairsPrinted(band, contrasts, cells) }));
  const width = Math.max(...printed.flatMap(({ own }) => own.map((one) => nameOf(one).length)));
  const lines = [
    `Differences, first - second: ${levelWords(level)} intervals and p over all pairs of a group (Tukey-Kramer)`,
  ];
  for (const { band, own } of printed) {
    const all = contrasts.filter((one) => one.band === band).length;
    lines.push(own.length < all ? `${band}  (the best recipe's of ${all} pairs; all of them: --json)` : band);
    for (const one of own) lines.push(`${nameOf(one).padEnd(width)}  ${contrastWords(one)}`);
  }
  if (margin !== null) lines.push(`A difference below ${margin} counts as none.`);
  return lines;
}

function pairsPrinted(
  band: string,
  contrasts: PoolAnalysis["contrasts"],
  cells: PoolAnalysis["cells"],
): PoolContrast[] {
  const own = contrasts.filter((one) => one.band === band);
  if (own.length <= PAIRS_PRINTED) return own;
  const known = cells.filter((cell) => cell.band === band && cell.estimate !== null);
  const best = known.reduce((most, cell) => (cell.estimate! > most.estimate! ? cell : most), known[0]!);
  return own.filter(({ first, second }) => first === best.arm || second === best.arm);
}

function nameOf({ first, second }: PoolContrast): string {
  return `${first} - ${second}`;
}

function contrastWords({ difference, lower, upper, p, verdict, reason }: PoolContrast): string {
  if (reason) return `${signed(difference).padStart(6)}  ${reasonWords[reason]}`;
  const interval = `${signed(lower)} to ${signed(upper)}`.padStart(16);
  return `${signed(difference).padStart(6)}  ${interval}  p ${pValue(p)}  ${verdictWords[verdict!]}`;
}

/** Which recipes may be the best of their group, and what comparing with the reference says. */
export function bestAndReference({ best, againstReference, level }: PoolAnalysis): string[] {
  const lines = [`Which may be the best of their group, at ${levelWords(level)} (Hsu)`];
  for (const band of new Set(best.map((one) => one.band))) {
    const own = best.filter((one) => one.band === band);
    const reason = own.find((one) => one.reason)?.reason;
    const may = own.filter(({ mayBeBest }) => mayBeBest).map(({ arm }) => arm);
    lines.push(`${band}: ${reason ? reasonWords[reason] : may.join(", ")}`);
  }
  if (againstReference.length === 0) return lines;
  lines.push("", `Less ${againstReference[0]!.reference} (Dunnett)`);
  for (const one of againstReference) {
    const { band, arm, difference, lower, upper, p, verdict, reason } = one;
    const figures = reason
      ? reasonWords[reason]
      : `${signed(difference)}  ${signed(lower)} to ${signed(upper)}  p ${pValue(p)}  ${verdictWords[verdict!]}`;
    lines.push(`${band}  ${arm}  ${figures}`);
  }
  return lines;
}

/** Whether climate groups differ in what suits them. */
export function interactionWords({ interaction }: PoolAnalysis): string[] {
  const { statistic, df1, df2, p, reason, crossover, cumulativeLogit } = interaction;
  if (reason === "ONE_BAND" || reason === "ONE_ARM") return [];
  const lines = [
    "Do differences vary over climate groups, on the outcome's scale?",
    reason
      ? reasonWords[reason]
      : `p ${pValue(p)}  (F ${number(statistic)} on ${df1} and ${df2 === null ? "many" : df2.toFixed(1)})`,
  ];
  if (cumulativeLogit.reason === null)
    lines.push(`On the cumulative-logit scale, which has no ceiling: p ${pValue(cumulativeLogit.p)}`);
  const crossing = crossover.filter((one) => one.p !== null && one.p < 0.05);
  lines.push(
    crossing.length > 0
      ? `The better one changes between groups for ${crossing.map(({ first, second }) => `${first} and ${second}`).join(", ")} (Gail-Simon, Holm).`
      : "No pair is shown to change places between groups (Gail-Simon, Holm).",
  );
  return lines;
}
