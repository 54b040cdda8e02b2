import { DifferenceIntervals } from "@/lib/ui/charts/difference-intervals";
import { resultMessages } from "@/lib/ui/messages/en/results";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { factorNames, type PoolAnalysis } from "@/shared/schemas/pool-analysis";
import { GRAINS, RATIO_BASES } from "@/shared/vocabulary/grain";
import type { ResultsContext } from "./context";
import { FigureTable } from "./figure-table";
import { dfFigure, figure, pFigure, range, signed, why } from "./figures";

const words = resultMessages.factors;
const NUMERIC = { numeric: true } as const;

type Effect = PoolAnalysis["factors"][number];

/** What the grain, the water and the cooking time do by themselves, over all climate groups and in each. */
export function FactorEffects({ effects, context }: { effects: readonly Effect[]; context: ResultsContext }) {
  const { groups, groupName, level, result } = context;
  const place = (band: string | null) => (band === null ? -1 : groups.findIndex(({ code }) => code === band));
  return factorNames.map((factor) => {
    const own = effects
      .filter((effect) => effect.factor === factor)
      .sort((a, b) => pair(a).localeCompare(pair(b)) || place(a.band) - place(b.band));
    if (own.length === 0) return null;
    const over = own.filter(({ band, difference }) => band === null && difference !== null);
    return (
      <section key={factor}>
        {over.length > 0 ? (
          <DifferenceIntervals
            title={words.chartTitle(words.factor[factor])}
            rows={over.map((effect) => ({ ...effect, name: pair(effect), difference: effect.difference! }))}
            margin={result.analysis?.margin ?? null}
          />
        ) : null}
        <FigureTable
          caption={words.caption(words.factor[factor])}
          columns={[
            { key: "pair", label: resultMessages.pairs.pair },
            { key: "group", label: resultMessages.group },
            { key: "difference", label: resultMessages.pairs.difference, ...NUMERIC },
            { key: "interval", label: resultMessages.pairs.interval(level), ...NUMERIC },
            { key: "se", label: resultMessages.columns.se, ...NUMERIC },
            { key: "df", label: resultMessages.columns.df, ...NUMERIC },
            { key: "p", label: resultMessages.pairs.p, ...NUMERIC },
          ]}
          rows={own.map((effect) => ({
            pair: pair(effect),
            group: effect.band === null ? words.all : groupName(effect.band),
            difference: effect.difference === null ? why(effect.reason) : signed(effect.difference),
            interval: range(effect, signed),
            se: figure(effect.se),
            df: dfFigure(effect.df),
            p: pFigure(effect.p),
          }))}
        />
      </section>
    );
  });
}

function pair({ factor, first, second }: Effect): string {
  return resultMessages.growers.pair(levelName(factor, first), levelName(factor, second));
}

function levelName(factor: Effect["factor"], level: string): string {
  if (factor === "grain") return grainName(level);
  const [ratio, basis] = level.split(" ");
  const known = RATIO_BASES.find((one) => one === basis);
  return ratio && known ? words.ratio(ratio, vocabularyMessages.ratioBasis[known]) : level;
}

/** A grain's name with a capital; what is no grain of the list stands as it is. */
export function grainName(grain: string): string {
  const known = GRAINS.find((id) => id === grain);
  const name = known ? vocabularyMessages.grain[known] : grain;
  return name.charAt(0).toUpperCase() + name.slice(1);
}
