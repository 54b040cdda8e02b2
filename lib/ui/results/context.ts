import { resultMessages as words } from "@/lib/ui/messages/en/results";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { StoredPlan } from "@/shared/schemas/plan";
import type { PoolResult } from "@/shared/schemas/pool";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { ClimateGroup, ClimateGrouping } from "@/shared/vocabulary/climate";
import type { RatioBasis } from "@/shared/vocabulary/grain";
import { levelWords } from "./figures";

/** What the pages of a trial's results take from the trial itself. */
export interface ResultsTrial {
  readonly slug: string;
  readonly grouping: ClimateGrouping;
  readonly regions: readonly { readonly code: string; readonly name: string }[];
  readonly recipes: readonly { readonly code: string; readonly content: VariantContent }[];
  readonly plan: StoredPlan;
  readonly closedAt: Date | null;
}

/** What every part of a results page is drawn with. */
export interface ResultsContext {
  readonly trial: ResultsTrial;
  readonly result: PoolResult;
  /** Groups with boxes, the reader's own first. */
  readonly groups: readonly ClimateGroup[];
  /** Groups without any box. */
  readonly empty: readonly ClimateGroup[];
  readonly own: ReadonlySet<string>;
  /** How all recipes compare water and grain, where names don't say it. */
  readonly basis: RatioBasis | null;
  /** What a recipe is called, by its arm's code. */
  readonly nameOf: (arm: string) => string;
  readonly groupName: (band: string) => string;
  readonly minimum: StoredPlan["minimum"];
  /** Level of the analysis' intervals in words, and of those without a model. */
  readonly level: string;
  readonly plainLevel: string;
}

export function resultsContext(
  trial: ResultsTrial,
  result: PoolResult,
  ownGroups: readonly string[],
): ResultsContext {
  const own = new Set(ownGroups);
  const names = recipeNames(trial);
  const hasBoxes = ({ code }: ClimateGroup) => result.cells.some(({ band }) => band === code);
  const filled = trial.grouping.filter(hasBoxes);
  return {
    trial,
    result,
    groups: [...filled.filter(({ code }) => own.has(code)), ...filled.filter(({ code }) => !own.has(code))],
    empty: trial.grouping.filter((group) => !hasBoxes(group)),
    own,
    basis: oneBasis(trial),
    nameOf: (arm) => names.get(arm) ?? arm,
    groupName: (band) =>
      vocabularyMessages.climateGroupName(
        trial.grouping.find(({ code }) => code === band) ?? { code: band, classes: [] },
      ),
    minimum: trial.plan.minimum,
    level: levelWords(result.analysis?.level ?? result.level),
    plainLevel: levelWords(result.level),
  };
}

/** How all recipes compare water and grain; null where they differ in it. */
function oneBasis({ recipes }: ResultsTrial): RatioBasis | null {
  const [first, ...others] = recipes.map(({ content }) => content.ratioBasis);
  return first && others.every((basis) => basis === first) ? first : null;
}

/** Names by arm code, short where all state their water alike; recipes of one name are told apart by their codes. */
function recipeNames(trial: ResultsTrial): ReadonlyMap<string, string> {
  const name = oneBasis(trial) ? vocabularyMessages.recipeShortName : vocabularyMessages.recipeName;
  const plain = trial.recipes.map(({ code, content }) => ({ code, name: name(content) }));
  return new Map(
    plain.map(({ code, name }) => {
      const isShared = plain.some((other) => other.code !== code && other.name === name);
      return [code, isShared ? words.nameWithCode(name, code) : name];
    }),
  );
}

/** Regions with boxes, by name. */
export function regionsOf({ result, trial }: ResultsContext): { code: string; name: string }[] {
  return [...new Set(result.regions.map(({ region }) => region))].map((code) => ({
    code,
    name: trial.regions.find((region) => region.code === code)?.name ?? code,
  }));
}
