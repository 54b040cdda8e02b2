import type { PoolNote, PoolReason, PoolWarning } from "@/shared/schemas/pool";
import type {
  AnalysisReason,
  AnalysisWarning,
  PoolAnalysis,
  RandomTerm,
  Verdict,
} from "@/shared/schemas/pool-analysis";

const NBSP = "\u00a0";

const reason: Readonly<Record<PoolReason | AnalysisReason, string>> = {
  NO_BOXES: "not enough yet: no box of this kind has the figure",
  TOO_FEW_BOXES: "not enough yet: no more boxes than recipes to tell apart",
  TOO_FEW_GROWERS: "not enough yet: too few growers to say how certain it is",
  NO_VARIATION: "all growers found the same, so there is nothing to measure certainty by",
  NOT_A_GROWTH_CLASS: "not counted in growth classes",
  ONE_ARM: "only one recipe: nothing to compare",
  NO_BLOCKS: "not enough yet: no set of boxes has two recorded boxes to compare",
  NOT_LINKED: "not compared: no chain of sets or growers links these recipes",
  AVAILABILITY: "not compared: only growers with different grains at hand had the two",
  ONE_BAND: "only one climate group has recipes to compare",
  FEW_SEASONS: "not enough yet: seasons are compared from three on",
  NOT_MEASURED: "not measured for enough boxes",
  NO_REFERENCE: "the plan names no recipe to compare with",
  INTERIM: "not shown before the trial's end",
  WITHHELD: "held back: too few households or boxes",
};

const warning: Readonly<Record<PoolWarning | AnalysisWarning, string>> = {
  FEW_GROWERS: "Few growers: the interval may be less sure than it says.",
  DESIGN_EFFECT_NOT_ESTIMABLE: "All boxes were alike, so each grower is counted as one box.",
  SINGLE_BOX_OUTINGS_SKIPPED: "Sets with a single recorded box are left out: they compare nothing.",
  ARMS_NOT_LINKED:
    "Not all recipes met each other in some chain of sets, so they are compared only within the groups that did.",
  GROWER_ARM_NOT_SEPARABLE:
    "No grower had a recipe twice in different sets, so how much growers differ in what suits them can't be told from chance between boxes.",
  TERM_NOT_SEPARABLE:
    "Differences between growers and between sets can't be told apart; one figure holds both.",
  VARIANCES_BADLY_TOLD_APART: "The sources of scatter can be told apart only badly.",
  RESIDUAL_VANISHES:
    "Boxes alike in recipe, set and grower hardly differ; the sources of scatter ran to their limit.",
  ZERO_VARIANCE: "One source of scatter came out at zero.",
  NOT_CONVERGED: "The fit did not settle: treat its figures as provisional.",
  AVAILABILITY_MERGED: "Choices of grains that few growers had were counted as one.",
  FIXED_OUTING_GAP:
    "Compared within sets only, the answer differs by more than its uncertainty: growers who lack a grain may have other places.",
  NOT_TRANSITIVE: "Differences of two recipes need not add up over a third.",
};

const note: Readonly<Record<PoolNote, string>> = {
  NO_ANALYSED_BOXES: "No box has a recorded growth yet.",
  ONE_ARM: "There is only one recipe, so there is nothing to compare.",
  SINGLE_BOX_OUTINGS_SKIPPED: warning.SINGLE_BOX_OUTINGS_SKIPPED,
  ARMS_NOT_LINKED: warning.ARMS_NOT_LINKED,
  UNMEASURED_BOXES: "Some boxes were recorded without their growth. They count as drawn, not as growth.",
  NEWER_RECORDS_WAIT:
    "Some newer records are not in these figures yet. They wait until at least 3 households have added some to the same recipe and group, so that nobody's records show in what changes from one look to the next.",
  SMALL_CELLS_WITHHELD:
    "Figures resting on fewer than 3 households or 5 boxes are held back, and others with them where they would give those away.",
};

const randomTerm: Readonly<Record<RandomTerm, string>> = {
  outing: "set of boxes",
  grower: "grower",
  "grower-arm": "grower × recipe",
};

const sensitivityKind: Readonly<Record<PoolAnalysis["sensitivity"][number]["kind"], string>> = {
  FIXED_OUTINGS: "Within sets only",
  MASKED_GRADES: "Second looks from pictures only",
  AS_COOKED: "By what was cooked",
  SAME_DAY_FETCH: "Only sets fetched on one day",
  LOST_AS_BEST: "Lost boxes as if all grown over",
  LOST_AS_WORST: "Lost boxes as if nothing grew",
};

const factor: Readonly<Record<PoolAnalysis["factors"][number]["factor"], string>> = {
  grain: "Grain",
  ratio: "Water to grain",
  minutes: "Minutes of cooking",
};

/** What a comparison comes to, the two recipes by their names; `margin` in words. */
function verdict(is: Verdict, first: string, second: string, margin: string): string {
  switch (is) {
    case "FIRST_SUPERIOR":
      return `${first} grew more`;
    case "SECOND_SUPERIOR":
      return `${second} grew more`;
    case "EQUIVALENT":
      return `equally good, within ${margin}`;
    case "FIRST_NON_INFERIOR":
      return `${first} at most ${margin} worse`;
    case "SECOND_NON_INFERIOR":
      return `${second} at most ${margin} worse`;
    case "UNDECIDED":
      return "undecided";
  }
}

/** Words of a trial's pooled results, for everyone and for its lead. */
export const resultMessages = {
  results: "Everyone's results",
  leadResults: "Everyone's results, as the lead sees them",
  inventedShort: "invented data",
  resultsTitle: (title: string) => `Everyone's results: ${title}`,
  hiddenTitle: "Results still hidden",
  hiddenWhy:
    "Nobody, the trial's lead included, sees everyone's growth by recipe until the trial has closed or a look its plan states beforehand is due, and such a look is for the lead and for growers with no box of theirs pending only. A grower sees the recipes of their own boxes. Whoever knew who is ahead could, without meaning to, cook, place or judge the next boxes otherwise, and a trial stopped at a lucky moment claims too much.",
  hiddenUntil: (day: string) => `The last day is ${day}.`,
  onItsWay: "The trial has closed. Its results are being worked out; look again in a few minutes.",
  closedEarly: (closed: string, planned: string) =>
    `The trial closed early, on ${closed}; its plan ran to ${planned}.`,
  newerWanted: "Something was added since; a newer result is on its way.",
  toTrial: "Question, recipes and plan",
  toLead: "Back to the trial",
  failedTitle: "The last attempt to work out a result failed.",
  failedKept: "The one before it stands below.",
  failedWhy: (when: string, why: string) => `${when}: ${why}`,
  interimTitle: "Interim: the trial isn't over.",
  interim: (look: number, looks: number, share: string, by: "boxes" | "days", level: string) =>
    `Look ${look} of ${looks}, with about ${share} of the planned ${by}. Its intervals are widened to ${level}, so that looking early doesn't claim too much; no recipe is called best and no p is given before the end.`,

  short: "What to cook",
  shortInterim: "How it stands so far",
  shortLead: "By climate group, from what grew in everyone's boxes.",
  waterToGrain: (basis: string) => `Figures after a grain are water to grain, ${basis}.`,
  ownGroup: "Your climate group",
  details: (group: string) => `Pictures and figures: ${group.charAt(0).toLowerCase()}${group.slice(1)}`,
  ofGroup: (boxes: number, growers: number) => `${boxes} boxes of ${growers} growers`,

  says: {
    nothing: "Not enough yet to say anything here.",
    one: (name: string, mean: string) =>
      `${name} grew ${mean} on average; there is nothing to compare it with.`,
    differ: (name: string, mean: string, among: number) =>
      `${name} grew most of the ${among} recipes that can be compared here, ${mean} on average, and the recipes do differ.`,
    unsure: (name: string, mean: string) =>
      `${name} grew most, ${mean} on average, but that may be chance: no recipe is shown to be better than another.`,
    untested: (name: string, mean: string) =>
      `${name} grew most, ${mean} on average; there is not enough yet to test whether that is more than chance.`,
    best: (name: string, mean: string, others: number) =>
      others === 1
        ? `${name} grew best here, ${mean} of 4 on average. It is shown to be better than the other recipe.`
        : `${name} grew best here, ${mean} of 4 on average. It is shown to be better than each of the ${others} others.`,
    rivals: (name: string, mean: string, rivals: readonly string[], more: number) =>
      `${name} grew most here, ${mean} of 4 on average, but isn't sure to be the best: ${listed(more > 0 ? [...rivals, more === 1 ? "one more" : `${more} more`] : rivals)} may be as good.`,
    alike: (margin: string) =>
      `All recipes grew alike here, within ${margin} on the scale of 0 to 4: cook the one that suits you.`,
    interim: (name: string, mean: string) =>
      `So far ${name} shows the highest mean growth, ${mean} of 4. That may still turn.`,
    againstReference: (reference: string, better: readonly string[], rest: number) =>
      better.length === 0
        ? `No recipe is shown to grow more than ${reference} here.`
        : `Shown to grow more than ${reference} here: ${listed(better)}.${rest > 0 ? ` ${rest === 1 ? "One other is" : `${rest} others are`} not.` : ""}`,
  },

  onThisPage: "On this page",
  byGroup: "By climate group",
  noBoxesFrom: (names: readonly string[]) => `Not enough yet: no box from ${names.join("; ")}.`,
  byRegion: "By region",
  byRegionNote: "Descriptive: a region may hold several climate groups.",
  regionCaption: "Plain mean growth of each recipe in each region, shaded by the nearest class of growth",
  regionNumbers: (region: string) => `In numbers: ${region}`,
  group: "Climate group",

  distributionTitle: "Boxes by how much grew",
  distributionSays: (name: string, parts: string, boxes: number) => `${name}: ${parts}, of ${boxes} boxes`,
  classCount: (count: number, name: string) => `${count} ${name.toLowerCase()}`,
  meanTitle: (level: string) => `Mean growth with its ${level} interval`,
  meanSays: (name: string, mean: string, range: string, level: string) =>
    `${name}: mean ${mean}, ${level} interval ${range}`,
  meanSaysOnly: (name: string, mean: string) => `${name}: mean ${mean}, no interval`,
  hollow: "Hollow: shown to grow less than the best.",
  hollowSays: "shown to grow less than the best",
  scale: "Growth: 0 none, 1 specks, 2 patches, 3 much, 4 nearly all",
  belowPlan: (names: readonly string[]) =>
    `Fewer boxes or growers than the plan asks for, so not named above: ${names.join("; ")}.`,
  inNumbers: "The same in numbers",

  chance: {
    title: "Chance to be the best here",
    says: (name: string, dots: number) =>
      dots === 20
        ? `Of 20 answers that fit what was seen, ${name} is best in all 20.`
        : `Of 20 answers that fit what was seen, ${name} is best in ${dots}.`,
    row: (dots: number) => `${dots} of 20`,
    share: { under: `under 1${NBSP}%`, over: `over 99${NBSP}%` },
    rest: (names: readonly string[]) => `Next to no chance: ${names.join("; ")}.`,
    caption: (where: string) => `Chance to be the best, ${where}`,
    mean: "On average over growers",
    nextSet: "In a grower's next set",
    nextSetNote:
      "On average one recipe may well be the best and yet lose in a single set of boxes, where chance and the place decide more.",
    none: (why: string) => `Chance to be the best: ${why}.`,
    tooFew: "not enough yet by the plan's minimum",
  },

  unknown: {
    title: "Not known yet",
    pair: (rival: string, leader: string) => `Whether ${rival} is as good as ${leader}.`,
    sets: (sets: string) => `About ${sets} more sets of boxes would settle it.`,
    farMore: "It would take over 1,000 more sets of boxes: too close to tell apart.",
    more: (pairs: number) =>
      pairs === 1 ? "One more recipe is undecided." : `${pairs} more recipes are undecided.`,
    spread: (first: string, second: string, low: string, high: string, level: string) =>
      `What you would see yourself: in one set of a new grower, growth of ${first} less that of ${second} lies between ${low} and ${high} in ${level} of cases.`,
    setsNote:
      "Sets from new growers like those so far, if the difference stays as it looks; as the difference is uncertain too, it is an order of magnitude.",
  },

  statistician: {
    title: "For the statistician",
    lead: "Contrasts, verdicts, spread over growers and other ways to look at it.",
  },
  pairs: {
    caption: (where: string, level: string) =>
      `Differences in mean growth by the model, first less second, ${where}; ${level} intervals and p simultaneous over the group's pairs (Tukey–Kramer)`,
    chartTitle: (name: string) => `Less growth than ${name}`,
    chartSays: (name: string, difference: string, range: string) => `${name}: ${difference}, ${range}`,
    chartNote: (margin: string | null) =>
      margin === null
        ? "Right of the line: less growth than the leader."
        : `Right of the line: less growth than the leader. Shaded: within the plan's margin of ${margin}, which counts as equally good.`,
    pair: "First less second",
    difference: "Difference",
    interval: (level: string) => `${level} interval`,
    p: "p",
    verdict: "Verdict",
    some: (shown: number, all: number) =>
      `The ${shown} pairs with the leading recipe; all ${all} stand in the download.`,
    margin: (margin: string | null) =>
      margin === null
        ? "The plan states no margin, so only superiority is judged."
        : `The plan's margin is ${margin} of growth: recipes that differ by less count as equally good.`,
    noneShown: (why: string) => `No differences: ${why}.`,
  },
  verdict,
  spread: {
    caption: (where: string, level: string) =>
      `How much growers differ, and what a new one would see, ${where}; ${level} prediction intervals`,
    trueDifference: "A new grower's true difference",
    nextSet: "One set of a new grower",
    note: "A new grower's true difference is what many sets of theirs would come to; one set holds one box of each.",
    sd: (sd: string) => `Over growers the true difference has a standard deviation of ${sd}.`,
  },
  beside: {
    caption: (where: string) => `The same differences, seen otherwise, ${where}; standard errors in brackets`,
    main: "Main answer",
    fixed: "Within sets only",
    shrunken: "Drawn towards all groups",
  },
  best: {
    caption: (where: string, level: string) =>
      `Each recipe less the best of the others, ${where}; simultaneous ${level} intervals (Hsu's comparisons with the best)`,
    difference: "Less the best other",
    mayBe: "May be the best",
    yes: "yes",
    no: "no",
  },
  reference: {
    caption: (where: string, reference: string, level: string) =>
      `Each recipe less ${reference}, ${where}; simultaneous ${level} intervals (Dunnett)`,
  },
  monteCarlo: (error: string) =>
    `The critical value is integrated by seeded sampling; its Monte Carlo error is at most ${error}.`,
  primary: {
    label: "Primary comparison",
    "all-pairs": "all pairs of recipes",
    "against-best": "each recipe with the best",
    "against-reference": (reference: string) => `each recipe with ${reference}`,
    none: "none stated by this plan",
  },

  everywhere: {
    title: "Does it hold in every climate?",
    caption: "Mean growth of each recipe in each climate group, shaded by the nearest class of growth",
    best: "Underlined: the highest of its climate group.",
    yes: (p: string) =>
      `Differences between recipes vary between climate groups on this scale of growth (${p}): read each group by itself.`,
    no: (p: string) =>
      `It isn't shown that differences between recipes vary between climate groups (${p}). That doesn't say that they are the same.`,
    none: (why: string) => `Whether differences vary between climate groups: ${why}.`,
    test: (df1: string, df2: string, statistic: string, p: string) =>
      `Recipe × climate group: F(${df1}, ${df2}) = ${statistic}, ${p}.`,
    logit: (df: string, chiSquare: string, p: string) =>
      `The same on the cumulative-logit scale, which allows for the ends of the scale: χ²(${df}) = ${chiSquare}, ${p}.`,
    logitNone: (why: string) => `The same on the cumulative-logit scale: ${why}.`,
    crossoverYes: (pairs: readonly string[]) =>
      `The ranking itself turns round between groups for: ${pairs.join("; ")}.`,
    crossoverPair: (first: string, second: string) => `${first} and ${second}`,
    crossoverNo: "For no pair of recipes is it shown that the ranking turns round between groups.",
    crossoverCaption:
      "Does the ranking turn round between climate groups? Gail & Simon (1985), p by Holm over pairs",
    crossoverStatistic: "Statistic",
    crossoverGroups: "Groups",
  },
  factors: {
    title: "Grain, water, cooking time",
    lead: "Recipes alike but for one thing, compared over the others.",
    caption: (what: string) => `${what}: first less second, this comparison's own interval and p`,
    all: "All climate groups",
    chartTitle: (what: string) => `${what}, over all climate groups`,
    factor,
    ratio: (ratio: string, basis: string) => `${ratio}${NBSP}:${NBSP}1 ${basis}`,
  },
  moisture: {
    title: "How wet?",
    lead: "Growth by the moisture each recipe was meant to have when cooked, grain by grain. Moisture measured after cooking is another matter and isn't used here.",
    chartTitle: (grain: string, where: string) => `${grain}, ${where}`,
    axis: "Moisture when cooked, %",
    caption: (where: string) => `Growth by moisture of the cooked grain, ${where}`,
    grain: "Grain",
    moisture: "Moisture",
    point: (percent: string, estimate: string) => `${percent}: ${estimate}`,
    slopeCaption: "Change of growth for ten points more moisture",
    slope: "Per ten points",
  },
  clean: {
    caption: (where: string, level: string) =>
      `Differences in the share of clean growth within sets (Mantel–Haenszel), ${where}; ${level} intervals, p by Holm`,
    oddsRatio: "Odds ratio",
  },
  usable: {
    title: "Usable grain",
    lead: "Grams of usable grain per box set out, a lost box counting 0. A secondary outcome: the trial's answer is growth.",
    most: (name: string, grams: string, behind: number, others: number) => {
      const average = `Most on average: ${name}, ${grams}${NBSP}g a box.`;
      if (others === 0) return average;
      return `${average} Shown to give less: ${behind === 0 ? "none" : behind} of ${others} compared with it.`;
    },
    caption: (where: string, level: string) =>
      `Usable grain per box set out by the model, grams, ${where}; ${level} intervals`,
    pairCaption: (where: string, level: string) =>
      `The recipe with the most less each other, grams, ${where}; simultaneous ${level} intervals (Tukey–Kramer)`,
    mean: "Grams a box",
    difference: "Difference, grams",
    none: (why: string) => `Usable grain: ${why}.`,
    note: "Rests on boxes that were weighed or lost. Where a set came back and none of it was weighed, its lost boxes are left out too; where only some boxes are weighed, lost ones count for more than their share and means come out low. A recipe needs 5 weighed boxes of 3 households.",
  },
  sensitivity: {
    title: "Would another way of counting change it?",
    lead: "The main differences once more, with one thing counted otherwise. Each with its interval.",
    caption: (where: string) => `Differences in mean growth, ${where}`,
    main: "Main answer",
    kind: sensitivityKind,
    note: {
      SAME_DAY_FETCH: "Descriptive: when a set is fetched may depend on how it looked.",
      LOST: "Lost boxes as all or nothing show the most that losses could change.",
    },
    none: (kind: string, why: string) => `${kind}: ${why}.`,
    base: (kind: string, boxes: number, growers: number) => `${kind}: ${boxes} boxes of ${growers} growers`,
  },
  agreement: {
    title: "Do people see the same?",
    lead: "How well different people's records of the same boxes agree: 1 is full agreement, 0 what chance would give.",
    kappa: "Weighted kappa of the two who share most boxes (quadratic)",
    alpha: "Krippendorff's alpha over all (ordinal)",
    alphaWith: (alpha: string, range: string, level: string) =>
      `${alpha} (${level} interval ${range}, bootstrap over boxes)`,
    base: "Seen by more than one",
    boxes: (boxes: string, graders: string) => `${boxes} boxes, ${graders} people`,
    none: (why: string) => `Agreement: ${why}.`,
  },
  growers: {
    title: "By grower",
    lead: "For you as the lead only. What each grower's own boxes say of a difference, by the weight they have in the pooled one, and how the pooled one would move without them (one step at the fitted variances).",
    pair: (first: string, second: string) => `${first} less ${second}`,
    chartTitle: (first: string, second: string) => `${first} less ${second}, by grower`,
    legend: "Square: one grower, its area the grower's weight. Diamond: all together with the interval.",
    pooled: "All together",
    caption: (pair: string) => `${pair}, by grower`,
    grower: "Grower",
    own: "Own difference",
    weight: "Weight",
    shift: "Moves the pooled one by",
    mostMoving: (grower: string, shift: string) =>
      `Grower ${grower} moves it most: without them it would change by ${shift}.`,
    none: "No grower's own figures are stored with this result.",
    others: (pairs: number) => (pairs === 1 ? "One more pair" : `${pairs} more pairs`),
    says: (grower: string, difference: string) => `${grower}: ${difference}`,
  },

  columns: {
    recipe: "Recipe",
    boxes: "Boxes",
    sets: "Sets",
    growers: "Growers",
    lost: "Lost",
    unmeasured: "Growth not recorded",
    mean: "Mean growth",
    modelMean: "Mean growth by the model",
    se: "SE",
    df: "df",
    clean: "Clean growth",
  },
  modelCaption: (where: string, level: string) =>
    `Mean growth by the model with its ${level} interval, ${where}`,
  countsCaption: (where: string) => `Plain means over growers, ${where}`,
  classesCaption: (where: string) => `Boxes by growth, ${where}`,
  cleanCaption: (where: string) =>
    `Clean growth: much or nearly all, at most 10 % of other colours, ${where}`,
  cleanNote: "A raw share of boxes; its interval counts boxes of one grower as alike as they are.",
  lossCaption: "Lost boxes by recipe, of all drawn",
  lossTitle: "Lost boxes",
  lossShare: "Share lost",
  loss: {
    yes: (p: string) =>
      `Some recipes lost more boxes than others (${p}). What grew is then read with care: lost boxes count for no recipe's growth.`,
    no: (p: string) => `It isn't shown that recipes lost boxes at different rates (${p}).`,
    none: (why: string) => `Whether recipes lost boxes at different rates: ${why}.`,
    test: (df1: string, df2: string, statistic: string) =>
      `Lost or not, ranked within each set, growers as the unit: F(${df1}, ${df2}) = ${statistic}.`,
    permuted: "Lost or not, ranked within each set, by relabellings within grower and set.",
  },
  range: (lower: string, upper: string) => `${lower}${NBSP}to${NBSP}${upper}`,
  withError: (value: string, se: string) => `${value}${NBSP}(${se})`,
  notThere: "–",

  nameWithCode: (name: string, code: string) => `${name} (${code})`,
  testAll: "Over all climate groups",
  testAllNote:
    "All groups in one test: differences that go opposite ways in different groups cancel out in it.",
  source: "Where these figures come from",
  testTitle: "Do the recipes differ at all?",
  testYes: "Yes, more than chance would do by itself (at 5 %).",
  testNo: "Not shown: chance alone could do this. That doesn't say they are the same.",
  testNone: (why: string) => `No answer: ${why}.`,
  testEach:
    "Each climate group is tested by itself; among twenty groups without any difference about one would show one by chance.",
  testMethod: {
    HOTELLING_F: (statistic: string, df1: string, df2: string) =>
      `Ranks within each set, growers as the unit: F(${df1}, ${df2}) = ${statistic}`,
    PERMUTATION_WITHIN_GROWERS: (permutations: string, statistic: string) =>
      `Ranks within each set, growers as the unit, ${permutations} relabellings within grower and set: statistic ${statistic}`,
  },
  testP: (p: string) => `p${NBSP}=${NBSP}${p}`,
  testPSmall: `p${NBSP}<${NBSP}0.001`,
  testBase: (boxes: string, outings: string, growers: string) =>
    `${boxes} boxes in ${outings} sets of ${growers} growers`,
  unclustered: (chiSquare: string, df: string, p: string) =>
    `Taking every set as independent, which claims too much where growers have several: χ²(${df}) = ${chiSquare}, ${p}`,

  basis: (rows: number, growers: number, outings: number, lost: number) =>
    `${rows} boxes of ${growers} growers in ${outings} sets; ${lost} boxes lost.`,
  basisWithheld: "How many boxes this rests on is held back: too few households or boxes.",
  cut: "Cut of the data (SHA-256)",
  workedOut: "Worked out",
  engine: "Worked out by",
  method: "Method",
  methodWithModel:
    "Means by the model, differences and chances come from the fit above. Plain means count each grower once (t over growers' own means), shares are Wilson's at the effective number of boxes. Analysis is as drawn.",
  methodWords:
    "Each grower counts once: the mean and its interval are taken over growers' own means (t). Shares by Wilson at the effective number of boxes. Analysis is as drawn.",
  record: {
    fit: "Fit",
    REML_PROFILED: "linear mixed model by restricted maximum likelihood, profiled deviance",
    random: "Random parts",
    randomTerm,
    df: "Degrees of freedom",
    SATTERTHWAITE: "Satterthwaite",
    rests: "Rests on",
    variances: "Standard deviations",
    outing: "set of boxes",
    grower: "grower",
    growerArm: "grower × recipe",
    residual: "box",
    inseparable: "grower × recipe and box together; the two can't be told apart",
    deviation: (name: string, sd: string) => `${name} ${sd}`,
    criterion: "Criterion",
    search: "Search",
    searched: (evaluations: string, converged: boolean) =>
      `${evaluations} evaluations, ${converged ? "converged" : "not converged"}`,
    level: "Level of the intervals",
    margin: "Margin of the plan",
    noMargin: "none stated",
    seed: "Seed of what is sampled",
    warnings: "To know",
    olderEngine:
      "Worked out by an older engine that did not fit a model; comparisons between recipes come with the next run.",
  },
  downloads: {
    title: "Take the figures with you",
    figures: "Every figure of this page as CSV",
    rows: "The rows behind them as CSV (lead only)",
    rowsNote:
      "One row per box, growers by pseudonym; the command pool works the same figures out of it. Keep it to yourself: small groups could be recognised.",
  },
  reason,
  warning,
  note,
} as const;

/** Names in a row: "a", "a and b", "a; b and c"; recipes' own names hold commas. */
function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join("");
  return `${names.slice(0, -1).join("; ")} and ${names.at(-1)}`;
}
