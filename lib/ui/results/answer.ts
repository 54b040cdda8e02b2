import { decimal } from "@/lib/ui/format";
import { resultMessages } from "@/lib/ui/messages/en/results";
import type { PoolArmSummary } from "@/shared/schemas/pool";
import type { FittedCell, PoolAnalysis, PoolContrast } from "@/shared/schemas/pool-analysis";
import type { ResultsContext } from "./context";
import { comparisonOf } from "./pairs";

const words = resultMessages.says;
const ALPHA = 0.05;
const RIVALS_NAMED = 3;

/** What a climate group's results come to. Recipes are arm codes; `behind` are shown to grow less than the leader. */
export interface Answer {
  /** Highest mean growth of those with what the plan asks for; null where there is none. */
  readonly leader: { readonly arm: string; readonly mean: number } | null;
  /** The others with what the plan asks for that may be as good, nearest first. */
  readonly rivals: readonly string[];
  readonly behind: readonly string[];
  /** Whether all of them are shown to be alike by the plan's margin. */
  readonly alike: boolean;
}

/** Whether a cell holds what the plan asks for before its recipe may be named. */
export function meetsMinimum(
  { boxes, growers }: { readonly boxes: number | null; readonly growers: number | null },
  { boxesPerCell, growersPerCell }: ResultsContext["minimum"],
): boolean {
  return (boxes ?? 0) >= boxesPerCell && (growers ?? 0) >= growersPerCell;
}

/** By the fitted model: behind is who the plan's primary comparison shows to be, the best unless it says all pairs. */
export function answerOf(band: string, analysis: PoolAnalysis, minimum: ResultsContext["minimum"]): Answer {
  const [first, ...others] = analysis.cells
    .filter((cell) => cell.band === band && cell.estimate !== null && meetsMinimum(cell, minimum))
    .sort((a, b) => b.estimate! - a.estimate!);
  if (!first) return { leader: null, rivals: [], behind: [], alike: false };
  const isBehind = ({ arm }: FittedCell): boolean =>
    analysis.primary?.kind === "all-pairs"
      ? isSuperior(comparisonOf(analysis.contrasts, band, first.arm, arm))
      : analysis.best.some((one) => one.band === band && one.arm === arm && one.mayBeBest === false);
  const among = new Set([first, ...others].map(({ arm }) => arm));
  const pairs = analysis.contrasts.filter(
    (pair) => pair.band === band && among.has(pair.first) && among.has(pair.second),
  );
  return {
    leader: { arm: first.arm, mean: first.estimate! },
    rivals: others.filter((cell) => !isBehind(cell)).map(({ arm }) => arm),
    behind: others.filter(isBehind).map(({ arm }) => arm),
    alike: pairs.length > 0 && pairs.every(({ verdict }) => verdict === "EQUIVALENT"),
  };
}

function isSuperior(contrast: PoolContrast | null): boolean {
  return contrast?.verdict === "FIRST_SUPERIOR";
}

/** One plain sentence or two on a climate group. Only recipes with what the plan asks for are named. */
export function sayAnswer(band: string, context: ResultsContext): string {
  const { result, nameOf, minimum } = context;
  const { analysis, interim } = result;
  if (!analysis) return sayByRanks(band, context);
  const { leader, rivals, behind, alike } = answerOf(band, analysis, minimum);
  if (!leader) return words.nothing;
  const name = nameOf(leader.arm);
  const mean = decimal(leader.mean, 1);
  const others = rivals.length + behind.length;
  if (interim) return words.interim(name, mean);
  if (others === 0) return words.one(name, mean);
  const said = [];
  if (alike && analysis.margin !== null) said.push(words.alike(decimal(analysis.margin, 1)));
  else if (behind.length === 0) said.push(words.unsure(name, mean));
  else if (rivals.length > 0) {
    const named = rivals.slice(0, RIVALS_NAMED).map(nameOf);
    said.push(words.rivals(name, mean, named, rivals.length - named.length));
  } else said.push(words.best(name, mean, others));
  if (analysis.primary?.kind === "against-reference") said.push(sayReference(band, analysis, nameOf));
  return said.join(" ");
}

function sayReference(band: string, analysis: PoolAnalysis, nameOf: (arm: string) => string): string {
  const own = analysis.againstReference.filter((one) => one.band === band);
  const better = own.filter(({ verdict }) => verdict === "FIRST_SUPERIOR");
  return words.againstReference(
    nameOf(analysis.primary!.arm!),
    better.map(({ arm }) => nameOf(arm)),
    own.length - better.length,
  );
}

/** For results stored before a model was fitted: plain means and the rank test. */
function sayByRanks(band: string, { result, nameOf, minimum }: ResultsContext): string {
  const [first, ...others] = result.cells
    .filter((cell) => cell.band === band && cell.mean.estimate !== null && meetsMinimum(cell.mean, minimum))
    .sort(byMean);
  if (!first) return words.nothing;
  const name = nameOf(first.arm);
  const mean = decimal(first.mean.estimate!, 1);
  if (others.length === 0) return words.one(name, mean);
  const p = result.rankByBand.find((rank) => rank.band === band)?.clustered.p ?? null;
  if (p === null) return words.untested(name, mean);
  return p < ALPHA ? words.differ(name, mean, others.length + 1) : words.unsure(name, mean);
}

/** Highest mean first, those without one last. */
export function byMean(a: PoolArmSummary, b: PoolArmSummary): number {
  return (b.mean.estimate ?? -1) - (a.mean.estimate ?? -1);
}
