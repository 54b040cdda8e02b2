import type { MoistureUnknown } from "@/lib/engine/grain/moisture";
import type { PoolNote, PoolReason, PoolWarning } from "@/shared/schemas/pool";

const unknownWater: Readonly<Record<MoistureUnknown, string>> = {
  DRAINED_WATER: "how much water is poured off",
  WATER_NOT_TAKEN_FROM_STEAM: "how much water stays under the steamer",
  SOAK_UPTAKE: "what the grain takes up while soaking",
  RINSE_WATER_AND_STARCH: "what rinsing adds and takes away",
  COLD_RINSE_UPTAKE: "what the cold rinse adds",
};

const reason: Readonly<Record<PoolReason, string>> = {
  NO_BOXES: "not enough yet: no box of this kind has the figure",
  TOO_FEW_GROWERS: "not enough yet: too few growers to say how certain it is",
  NO_VARIATION: "all growers found the same, so there is nothing to measure certainty by",
  NOT_A_GROWTH_CLASS: "not counted in growth classes",
  ONE_ARM: "only one recipe: nothing to compare",
  NO_BLOCKS: "not enough yet: no set of boxes has two recorded boxes to compare",
  WITHHELD: "held back: too few households or boxes",
};

const warning: Readonly<Record<PoolWarning, string>> = {
  FEW_GROWERS: "Few growers: the interval may be less sure than it says.",
  DESIGN_EFFECT_NOT_ESTIMABLE: "All boxes were alike, so each grower is counted as one box.",
  SINGLE_BOX_OUTINGS_SKIPPED: "Sets with a single recorded box are left out: they compare nothing.",
  ARMS_NOT_LINKED:
    "Not all recipes met each other in some chain of sets, so they are compared only within the groups that did.",
};

const note: Readonly<Record<PoolNote, string>> = {
  NO_ANALYSED_BOXES: "No box has a recorded growth yet.",
  ONE_ARM: "There is only one recipe, so there is nothing to compare.",
  SINGLE_BOX_OUTINGS_SKIPPED: warning.SINGLE_BOX_OUTINGS_SKIPPED,
  ARMS_NOT_LINKED: warning.ARMS_NOT_LINKED,
  UNMEASURED_BOXES: "Some boxes were recorded without their growth. They count as drawn, not as growth.",
  SMALL_CELLS_WITHHELD:
    "Figures resting on fewer than 3 households or 5 boxes are held back, and others with them where they would give those away.",
};

/** Words of the pages about trials that anyone may read. */
export const trialMessages = {
  title: "Trials",
  lead: "Each asks one question, says beforehand how it will be answered, and is answered by many growers together.",
  open: "Open",
  closed: "Closed",
  noneOpen: "No trial is open just now.",
  noneClosed: "No trial has closed yet.",
  older: "Older ones",
  newest: "Back to the newest",
  invented: "Invented data: every person, place and figure of this trial is made up.",
  inventedShort: "invented data",
  recipesCount: (n: number) => (n === 1 ? "1 recipe" : `${n} recipes`),
  seatsLeft: (n: number) => (n === 0 ? "no seats left" : n === 1 ? "1 seat left" : `${n} seats left`),
  endsOn: (day: string) => `ends ${day}`,
  endedOn: (day: string) => `was planned to end ${day}`,
  join: "Join this trial",
  results: "Everyone's results",
  resultsHidden: "Results still hidden",
  full: "Every seat is taken.",

  recipes: "Recipes",
  recipesLead:
    "Chance picks among these for each box. Water is compared by weight, so that cups and scales stand on one line.",
  recipesCaption: "The recipes of this trial",
  recipe: "Recipe",
  how: "How it is cooked",
  waterByMass: "Water per grain, g per g",
  moisture: "Moisture when cooked",
  moistureRange: (least: string, most: string) => `${least}–${most} %`,
  moistureAtMost: (most: string) => `at most ${most} %`,
  moistureAbout: (percent: string) => `about ${percent} %`,
  moistureUnknown: "unknown: a cup of this grain can't be turned into grams",
  notCounted: (parts: readonly MoistureUnknown[]) =>
    `not counted: ${parts.map((part) => unknownWater[part]).join(", ")}`,
  moistureNote:
    "Predicted from the recipe and the raw grain's water in the USDA tables; the lower figure is with 30 % of the water boiled away (common practice, no source).",

  regions: "Regions",
  regionsCaption: "Where this trial looks for growers",
  region: "Region",
  seats: "Seats left",
  seatsOf: (left: number, capacity: number) => `${left} of ${capacity}`,

  groups: "Climate groups",
  groupsLead: "Places are compared only within their group, by the climate of the nearest weather station.",

  plan: "The plan",
  planLead: "Fixed when the trial opened. What had to change since stands under amendments.",
  openedAt: "Opened",
  closedAt: "Closed",
  planHash: "Fingerprint of the plan",

  proof: "Proof that nobody chose",
  proofLead:
    "The trial's secret was fixed before the first pick. Its fingerprint, the seal, is public from the start; each pick follows from the secret and is chained to the one before. When the trial closes the secret is published, and anyone can do every pick again and compare.",
  seal: "Seal (SHA-256 of the secret)",
  draws: "Sets of boxes picked for so far",
  lastHash: "Fingerprint of the last pick",
  secret: "The secret",
  secretKept: "published when the trial closes",
  proofMore: "How this is shown, and your receipt",
  proofCheck: "Check every pick yourself",

  flow: "How far the boxes have come",
  flowLead: "All recipes together, rounded down to fives so that no single household shows.",
  flowHidden: "Shown once there are 5 boxes of 3 households.",
  flowCaption: "Boxes by how far they have come",
  flowStep: "Step",
  flowBoxes: "Boxes, at least",
  drawn: "recipe picked",
  setOut: "set out",
  opened: "opened",
  recorded: "recorded",
  lost: "lost",

  resultsTitle: (title: string) => `Everyone's results: ${title}`,
  hiddenTitle: "Results still hidden",
  hiddenWhy:
    "Nobody, the trial's lead included, sees everyone's growth by recipe until the trial has closed; a grower sees the recipes of their own boxes only. Whoever knew who is ahead could, without meaning to, cook, place or judge the next boxes otherwise, and a trial stopped at a lucky moment claims too much.",
  hiddenUntil: (day: string) => `The last day is ${day}.`,
  onItsWay: "The trial has closed. Its results are being worked out; look again in a few minutes.",
  closedEarly: (closed: string, planned: string) =>
    `The trial closed early, on ${closed}; its plan ran to ${planned}.`,
  newerWanted: "Something was added since; a newer result is on its way.",
  toTrial: "Question, recipes and plan",

  says: {
    nothing: "Not enough yet to say anything here.",
    one: (name: string, mean: string) =>
      `${name} grew ${mean} on average; there is nothing to compare it with.`,
    differ: (name: string, mean: string, among: number) =>
      `${name} grew most of the ${among} recipes that can be compared here, ${mean} on average, and the recipes do differ.`,
    unsure: (name: string, mean: string) =>
      `${name} grew most, ${mean} on average, but that may be chance: no difference between the recipes is shown.`,
    untested: (name: string, mean: string) =>
      `${name} grew most, ${mean} on average; there is not enough yet to test whether that is more than chance.`,
  },
  onThisPage: "On this page",
  byGroup: "By climate group",
  noBoxesFrom: (names: readonly string[]) => `Not enough yet: no box from ${names.join("; ")}.`,
  byRegion: "By region",
  byRegionNote: "Descriptive: a region may hold several climate groups.",

  distributionTitle: "Growth by recipe",
  distributionSays: (name: string, parts: string, boxes: number) => `${name}: ${parts}, of ${boxes} boxes`,
  classCount: (count: number, name: string) => `${count} ${name.toLowerCase()}`,
  meanTitle: "Mean growth with its 95 % interval",
  meanSays: (name: string, mean: string, range: string) => `${name}: mean ${mean}, 95 % interval ${range}`,
  meanSaysOnly: (name: string, mean: string) => `${name}: mean ${mean}, no interval`,
  scale: "Growth: 0 none, 1 specks, 2 patches, 3 much, 4 nearly all",
  belowPlan: (names: readonly string[]) =>
    `Fewer boxes or growers than the plan asks for, so not named above: ${names.join("; ")}.`,
  inNumbers: "The same in numbers",
  columns: {
    recipe: "Recipe",
    boxes: "Boxes",
    sets: "Sets",
    growers: "Growers",
    lost: "Lost",
    unmeasured: "Growth not recorded",
    mean: "Mean growth",
    interval: "95 % interval",
    clean: "Clean growth",
    cleanInterval: "95 % interval",
  },
  countsCaption: (where: string) => `Mean growth, ${where}`,
  classesCaption: (where: string) => `Boxes by growth, ${where}`,
  cleanCaption: (where: string) =>
    `Clean growth: much or nearly all, at most 10 % of other colours, ${where}`,
  cleanNote: "A raw share of boxes; its interval counts boxes of one grower as alike as they are.",
  lossCaption: "Lost boxes by recipe, of all drawn",
  lossTitle: "Lost boxes",
  lossShare: "Share lost",
  range: (lower: string, upper: string) => `${lower}\u00a0to\u00a0${upper}`,
  notThere: "–",

  nameWithCode: (name: string, code: string) => `${name} (${code})`,
  testAll: "Over all climate groups",
  testAllNote: "Differences that go opposite ways in different climate groups cancel out here.",
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
  testP: (p: string) => `p = ${p}`,
  testPSmall: "p < 0.001",
  testBase: (boxes: number, outings: number, growers: number) =>
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
  methodWords:
    "Each grower counts once: the mean and its interval are taken over growers' own means (t). Shares by Wilson at the effective number of boxes. Analysis is as drawn.",
  thisSeason: "This season only: whether it holds in another year is not known.",
  reason,
  warning,
  note,
} as const;
