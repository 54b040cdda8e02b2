import { setsToSettle } from "@/lib/engine/statistics/sets-to-settle";
import { decimal } from "@/lib/ui/format";
import { resultMessages } from "@/lib/ui/messages/en/results";
import { seasonMessages } from "@/lib/ui/messages/en/results-standing";
import type { PoolAnalysis, PoolContrast } from "@/shared/schemas/pool-analysis";
import { answerOf } from "./answer";
import type { ResultsContext } from "./context";
import { aboutSets } from "./figures";
import { comparisonOf } from "./pairs";

const words = resultMessages.unknown;
const { notKnown } = seasonMessages;
const PAIRS_NAMED = 3;
const TOO_MANY_SETS = 1000;

interface Item {
  readonly key: string;
  readonly text: string;
}

/** What a group's results leave open, and about how many more sets of boxes would settle it. */
export function NotKnown({ band, context }: { band: string; context: ResultsContext }) {
  const { analysis, interim } = context.result;
  const pairs = analysis && !interim ? openPairs(band, analysis, context) : [];
  const spread = analysis && !interim ? spreadWords(band, analysis, context) : null;
  return (
    <section className="mb-5">
      <h4 className="mb-1 text-[1.0625rem] font-bold">{words.title}</h4>
      <ul className="list-disc space-y-1.5 pl-5">
        {pairs.map(({ key, text }) => (
          <li key={key}>{text}</li>
        ))}
        {spread ? <li>{spread}</li> : null}
        <li>{(analysis?.seasons?.cells.length ?? 0) > 0 ? notKnown.more : notKnown.few}</li>
      </ul>
      {pairs.length > 0 ? <p className="mt-2 text-[0.9375rem] text-quiet">{words.setsNote}</p> : null}
    </section>
  );
}

function openPairs(
  band: string,
  analysis: PoolAnalysis,
  { result, nameOf, minimum }: ResultsContext,
): Item[] {
  const { leader, rivals } = answerOf(band, analysis, minimum);
  if (!leader) return [];
  const open = rivals.flatMap((rival) => {
    const contrast = comparisonOf(analysis.contrasts, band, leader.arm, rival);
    return contrast && isOpen(contrast) ? [contrast] : [];
  });
  const sets = result.totals.byBand.find((total) => total.band === band)?.outings ?? null;
  const items = open.slice(0, PAIRS_NAMED).map((contrast) => ({
    key: contrast.second,
    text: [
      words.pair(nameOf(contrast.second), nameOf(contrast.first)),
      setsWords(contrast, sets, analysis.margin),
    ]
      .filter(Boolean)
      .join(" "),
  }));
  const more = open.length - items.length;
  return more > 0 ? [...items, { key: "", text: words.more(more) }] : items;
}

function isOpen({ verdict }: PoolContrast): boolean {
  return verdict !== "FIRST_SUPERIOR" && verdict !== "EQUIVALENT";
}

function setsWords(contrast: PoolContrast, sets: number | null, margin: number | null): string | null {
  const { difference, lower, upper } = contrast;
  if (sets === null || difference === null || lower === null || upper === null) return null;
  const more = setsToSettle({ difference, lower, upper }, sets, margin);
  if (more === 0) return null;
  return more === null || more > TOO_MANY_SETS ? words.farMore : words.sets(aboutSets(more));
}

/** What one more grower would see between the leader and the next. */
function spreadWords(
  band: string,
  analysis: PoolAnalysis,
  { nameOf, minimum, level }: ResultsContext,
): string | null {
  const { leader, rivals, behind } = answerOf(band, analysis, minimum);
  const other = [...rivals, ...behind][0];
  if (!leader || !other) return null;
  const found = analysis.prediction.find(
    (one) =>
      one.band === band &&
      [one.first, one.second].includes(leader.arm) &&
      [one.first, one.second].includes(other),
  );
  if (!found || found.nextSet.lower === null || found.nextSet.upper === null) return null;
  const { lower, upper } = found.nextSet;
  const [low, high] = found.first === leader.arm ? [lower, upper] : [-upper, -lower];
  return words.spread(nameOf(leader.arm), nameOf(other), decimal(low, 1), decimal(high, 1), level);
}
