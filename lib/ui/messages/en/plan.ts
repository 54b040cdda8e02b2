import type { EARLY_CLOSE_RULES } from "@/shared/schemas/plan";

const earlyCloseRule: Readonly<Record<(typeof EARLY_CLOSE_RULES)[number], string>> = {
  never: "not before the end",
  "every-cell-at-minimum":
    "only once every recipe has reached the stated minimum of boxes and growers in every climate group",
  "lead-may-close-marked":
    "the lead may close before the end, without having seen growth by recipe; the results then say so",
};

const days = (list: readonly number[]) =>
  list.length === 1 ? `${list[0]}` : `${list.slice(0, -1).join(", ")} or ${list.at(-1)}`;

/** Words for a trial's plan, on the public page and on its lead's. */
/** How the chance to find a difference was worked out, by the planner's names. */
const METHODS: Readonly<Record<string, string>> = {
  "noncentral-t-growers-minus-1": "the noncentral t distribution, growers less one as its degrees of freedom",
  "simulated-arrivals": "simulating growers and their sets as they arrive",
};

export const planMessages = {
  asks: "What is asked",
  question: "Question",
  estimand: "What is estimated",
  estimandWords:
    "the difference between two recipes in mean growth (0 to 4) of the boxes that were picked for them, over the growers of a climate group",
  outcome: "What decides",
  outcomeWords: "growth, from none (0) to nearly all of the grain (4), by the boundaries of ASTM G21",
  rubric: "How growth is recorded",
  rubrics: {
    "growth-1": "share of the grain under white or grey growth, other colours apart, step by step",
  } as Readonly<Record<string, string>>,
  groups: "Climate groups",

  decides: "How it is decided",
  comparison: "Main comparison",
  comparisons: {
    "all-pairs": "every recipe with every other, within a climate group",
    "against-best": "every recipe with the best, within a climate group",
    "against-reference": (recipe: string) => `every recipe with ${recipe}, within a climate group`,
  },
  margin: "Counts as equally good",
  marginWords: (margin: string) => `less than ${margin} apart in mean growth`,
  verdicts: "What may be said",
  verdictWords: (margin: string) => [
    `better: the whole interval of the difference lies above 0`,
    `equally good: it lies between −${margin} and ${margin}`,
    `not worse: it lies above −${margin}`,
    `undecided: anything else`,
  ],
  level: "Level",
  levelWords: (alpha: string, confidence: string) =>
    `${alpha} two-sided for the main comparison; intervals of ${confidence}`,
  looks: "Looks at results by recipe",
  looksWords: (count: number) =>
    count === 1
      ? "one, at the end"
      : `${count}, the one at the end included; the level is spent over them by an O’Brien–Fleming type rule, little at first`,

  boxes: "Growers and boxes",
  boxesPerSet: "Boxes in a set",
  boxesRange: (min: number, max: number) => (min === max ? `${min}` : `${min} to ${max}`),
  sampleSize: "How many growers, and why",
  sampleSizeNone: "no number of growers was worked out beforehand",
  sampleSizeWords: (figures: {
    readonly growers: number;
    readonly sets: number;
    readonly boxes: number;
    readonly recipes: number;
    readonly difference: string;
    readonly power: string;
    readonly alpha: string;
  }) =>
    `${figures.growers} growers in a climate group with ${figures.sets === 1 ? "one set" : `${figures.sets} sets`} of ${figures.boxes} boxes each, among ${figures.recipes} recipes, find a difference of ${figures.difference} in mean growth with a chance of ${figures.power} (${figures.alpha} two-sided)`,
  powerWithError: (power: string, error: string) => `${power} ± ${error}`,
  sampleSizeFrom: {
    assumed: (sd: string) => `Assumed standard deviations: ${sd}.`,
    "earlier-trial": (sd: string) => `Standard deviations from an earlier trial: ${sd}.`,
  },
  deviations: (sd: {
    readonly grower: string;
    readonly growerArm: string;
    readonly outing: string;
    readonly residual: string;
  }) =>
    `between growers ${sd.grower}, grower by recipe ${sd.growerArm}, between sets of a grower ${sd.outing}, between boxes of a set ${sd.residual}`,
  methodIs: (method: string) => `Worked out by ${METHODS[method] ?? method}.`,
  minimum: "Results stay hidden below",
  minimumWords: (boxes: number, growers: number) =>
    `${boxes} boxes of ${growers} growers for each recipe in a climate group`,
  meetAgain: "Meeting a recipe again",
  meetAgainWords: (share: string) =>
    `${share} of a grower’s later sets hold a recipe the grower had before, so that it shows whether growers differ in which recipe suits them`,
  meetAgainNone: "not planned: later sets hold other recipes while there are any",
  fetch: "When boxes are fetched",
  fetchRules: {
    "by-growth": () => "as the growth looks, by the grower’s judgement",
    "same-day": ([day]: readonly number[]) => `all ${day} days after they were set out`,
    staged: (list: readonly number[]) =>
      `${days(list)} days after they were set out, picked by chance for each set`,
  },
  boxLimits: "Limits to the boxes",
  boxLimitsNone: "any untreated box with up to 7.5 cm of grain",
  boxKinds: (kinds: string) => `of ${kinds}`,
  boxDepth: (from: string, to: string) => `${from} to ${to} cm of grain`,
  boxSpacing: (cm: number) => `at least ${cm} cm apart`,
  losses: "Lost boxes",
  lossesWords: "stay in the analysis with the recipe that was picked for them, and are counted by recipe",
  otherwise: "Cooked otherwise",
  otherwiseWords: "counts with the recipe picked; as really cooked is worked out beside it",

  ends: "When it ends",
  lastDay: "Last day",
  endsAtBoxes: "Or earlier",
  endsAtBoxesWords: (boxes: string) => `once ${boxes} boxes have been recorded`,
  early: "Closing early",
  earlyCloseRule: earlyCloseRule as Readonly<Record<string, string>>,
  now: (was: string, day: string) => `${was} (amended: ${day})`,

  amendments: {
    title: "Amendments",
    none: "There is none: the plan stands as it opened.",
    numbered: (number: number, day: string) => `Amendment ${number}, ${day}`,
    endsOn: (day: string) => `The last day is now ${day}.`,
    endsAtBoxes: (boxes: string) => `It now also ends once ${boxes} boxes have been recorded.`,
    reason: (reason: string) => `Reason: ${reason}`,
    fingerprint: "Fingerprint, chained to the one before:",
  },

  older:
    "This trial opened before plans stated a comparison, a margin, looks and the number of growers. What isn’t listed was not fixed beforehand.",
} as const;
