import type { DesignKind, EfficiencyBound, PlannerFactor } from "@/shared/schemas/planner-result";

const kinds: Readonly<Record<DesignKind, string>> = {
  complete: "complete",
  balanced: "balanced",
  resolvable: "resolvable",
  cyclic: "cyclic",
  optimised: "searched",
};

const kindNotes: Readonly<Record<DesignKind, string>> = {
  complete: "Complete: every set holds every recipe.",
  balanced: "Balanced: incomplete sets in which every two recipes meet equally often.",
  resolvable: "Resolvable: incomplete sets that go together to rounds holding every recipe once.",
  cyclic: "Cyclic: incomplete sets, each the one before moved on by a recipe.",
  optimised: "Searched: incomplete sets found by swapping recipes between sets while that tells more.",
};

const factors: Readonly<Record<PlannerFactor, string>> = {
  grain: "two grains",
  waterRatio: "two water ratios",
  minutes: "two cooking times",
};

const bounds: Readonly<Record<EfficiencyBound, string>> = {
  WITHIN_SETS: "by what a set of this size can tell",
  UNEQUAL_REPLICATION: "by recipes used unequally often",
};

const growers = (n: number) => (n === 1 ? "1 grower" : `${n.toLocaleString("en-GB")} growers`);
const recipes = (n: number) => (n === 1 ? "one recipe" : `${n} recipes`);
const sets = (n: number) => (n === 1 ? "1 set" : `${n.toLocaleString("en-GB")} sets`);

/** Words of the page where a trial's design is planned, and of the one that says how it stands. */
export const designMessages = {
  tabTitle: "Design",
  pageTitle: "Plan the design",
  lead: "How many recipes, growers and boxes does the question need? Say what you expect; below stands what each design could find.",
  back: "Back to the draft",
  backToTrial: "Back to the trial",

  form: {
    change: "Change what you expect",
    recipes: "Recipes",
    asGrid: "Grains by water",
    asGridHint: "Every grain with every water ratio, and every cooking time if you name some",
    asList: "A number of recipes",
    asListHint: (inDraft: number) =>
      inDraft > 0 ? `The draft holds ${inDraft}` : "Whatever they will be; the draft holds none yet",
    grains: "Grains",
    ratios: "Water ratios",
    ratiosHint: "Parts of water to one of grain, a blank between: 0.9 1.2",
    minutes: "Cooking times",
    minutesHint: "Minutes, if they differ between recipes; else leave empty",
    count: "Number of recipes",
    boxesMin: "Fewest boxes in a set",
    boxesMax: "Most boxes in a set",
    groups: "Growers you expect, by climate group",
    growersIn: (group: string) => `Growers, ${group}`,
    setsIn: (group: string) => `Sets each, ${group}`,
    growersHint: "Households; two growers of one household count once.",
    deviations: "How much growth varies",
    deviationsLead:
      "Standard deviations on the scale of growth, 0 to 4. The figures filled in are assumed, no source; take those of an earlier trial of yours if there is one.",
    sd: {
      grower: "Between growers",
      growerArm: "Grower by recipe",
      outing: "Between sets of one grower",
      residual: "Between boxes of one set",
    },
    sdHint: {
      grower: "Some places grow more whatever is cooked.",
      growerArm:
        "What suits one grower’s place suits another’s less. This decides how many growers are needed.",
      outing: "Weather and season.",
      residual: "Everything else.",
    },
    sdFrom: "These come from",
    sdFromOptions: { assumed: "an assumption", "earlier-trial": "an earlier trial" },
    finds: "What should be found",
    difference: "Difference in mean growth",
    differenceHint: "The least difference between two recipes worth acting on.",
    margin: "Counts as equally good within",
    marginHint: "Two recipes closer than this are as good as each other to you.",
    cleanBase: "Clean growth under one recipe",
    cleanMore: "And so much more under another",
    cleanHint: "Boxes with much growth and at most 10 % of other colours. Leave both empty to leave it out.",
    again: "Growers who meet a recipe again",
    againHint: "Of those with several sets; so that grower by recipe can be told from chance.",
    percent: "%",
    submit: "Work it out",
  },

  summary: (figures: {
    readonly recipes: number;
    readonly boxes: string;
    readonly difference: string;
    readonly groups: string;
  }) =>
    `${recipes(figures.recipes)}, sets of ${figures.boxes} boxes, ${figures.groups}, a difference of ${figures.difference}.`,
  groupSummary: (n: number, setsEach: number) => `${growers(n)} with ${sets(setsEach)} each`,
  inEach: "in each climate group",
  inEachHeading: "In each climate group",
  groupsDiffer: "growers by climate group as below",

  advice: {
    title: "In words",
    for: (group: string) => `${group}: `,
    FEWER_ARMS: (arms: number, n: number, armsThatDo: number) =>
      `${capital(recipes(arms))} are too many for ${growers(n)}; ${armsThatDo} would do.`,
    MORE_GROWERS: (n: number, growersThatDo: string | null) =>
      growersThatDo === null
        ? `${growers(n)} are too few, and no number within reach would find this difference.`
        : `${growers(n)} are too few; ${growersThatDo} would find the difference four times out of five.`,
    ENOUGH: (power: string) => `Enough: the difference is found with a chance of ${power}.`,
    GROWERS_BEFORE_SETS: (power: string, growersInstead: number, setsInstead: number, powerInstead: string) =>
      `Growers before sets: the same boxes with ${growers(growersInstead)} of ${sets(setsInstead)} each find it with ${powerInstead} instead of ${power}.`,
    MEET_AGAIN: (share: string, planned: string) =>
      `Let ${share} of the growers meet a recipe again (you plan ${planned}): only then can grower by recipe be told from chance.`,
    NOT_SEPARABLE: (setsEach: number) =>
      `With ${sets(setsEach)} each, grower by recipe can’t be told from chance. The comparison holds all the same; how much growers differ will not be known.`,
    NOT_CONNECTED: (n: number, needed: number) =>
      `${capital(sets(n))} can’t link all recipes: at least ${needed} are needed.`,
    FEW_GROWERS: (n: number) => `With ${growers(n)} every figure stands on thin ground.`,
    EQUIVALENCE_FAR: (margin: string, power: string, growersThatDo: string | null) =>
      `Two equal recipes would be called equally good (within ${margin}) with a chance of only ${power}${growersThatDo === null ? "; no number within reach changes that" : `; ${growersThatDo} make it four out of five`}.`,
  },
  refusal: {
    NO_GROUP_CONNECTED: (n: number, needed: number) =>
      `No climate group can link all these recipes: the largest has ${sets(n)}, and at least ${needed} are needed. Take fewer recipes, more boxes in a set, or more growers.`,
  },

  designs: "Designs",
  together: "All climate groups together",
  togetherNote: "As if recipes did the same everywhere.",
  designName: (kind: DesignKind, boxes: number) => `${kinds[kind]}, ${boxes} boxes`,
  kindNotes,
  designsCaption: (where: string) => `Designs, ${where}; the best first`,
  findsCaption: (where: string) => `What each can find, ${where}`,
  moreDesigns: (n: number) => (n === 1 ? "1 further design" : `${n} further designs`),
  columns: {
    design: "Design",
    efficiency: "Efficiency E",
    bound: "At most",
    connected: "All recipes linked",
    replication: "Boxes per recipe",
    again: "Growers who must meet one again",
    power: "Finds the difference",
    any: "Finds that any differ",
    equivalence: "Calls equal ones equal",
    clean: "Finds the clean share",
    halfWidth: "Interval ±",
    growers80: "Growers for 80 %",
    growers90: "Growers for 90 %",
  },
  columnNotes: [
    "Efficiency E compares a design with complete sets of as many boxes that vary as little: 1 is the most; “at most” is what no design of these sizes can pass.",
    "Chances are those of the t test between two recipes (growers as the unit, grower by recipe counted), the F test that any two differ so much, two one-sided tests within the margin, and a simulated clustered test of clean growth. Where ± stands, growers’ arrivals were simulated, with the error of that; else it is the formula for even arrivals.",
  ],
  boundIs: (by: EfficiencyBound) => `Its efficiency is limited ${bounds[by]}.`,
  yes: "yes",
  no: "no",
  notReached: "not within reach",
  byItself: "none: it happens by itself",
  notWithTheseSets: "not with these sets",
  needed: (n: string, boxes: string) => `${n} (${boxes} boxes)`,
  withError: (chance: string, error: string) => `${chance}\u00a0±\u00a0${error}`,
  range: (min: string, max: string) => (min === max ? min : `${min} to ${max}`),
  notThere: "–",
  factors: (list: string) => `Between levels of one factor it is easier: ${list}.`,
  factorChance: (factor: PlannerFactor, chance: string) => `${factors[factor]} ${chance}`,
  simulatedNote: (formula: string, simulated: string) =>
    `The chance to find the difference is from simulated arrivals: ${simulated}, where the formula for even arrivals says ${formula}.`,
  worstPair: (chance: string, df: string) =>
    `For the two recipes that meet least the chance is ${chance}; the test of one pair has ${df} degrees of freedom.`,

  curve: {
    title: (design: string, where: string) => `Chance against growers: ${design}, ${where}`,
    growers: "Growers",
    chance: "Chance",
    lines: {
      difference: "finds the difference",
      anyDifference: "finds that any differ",
      equivalence: "calls equal ones equal",
      cleanTake: "finds the clean share",
    },
    planned: "planned",
    plannedAt: (n: string) => `${n}, as planned`,
    table: "The same in numbers",
    waiting: "The curve is being drawn; its numbers stand below.",
    says: (parts: string) => `Chance by number of growers: ${parts}.`,
    growersThere: (n: string) => `${n} growers`,
    point: (n: number, chance: string) => `${n} growers ${chance}`,
  },
  shown: "shown below",

  take: {
    title: "Take these figures into the plan",
    lead: (design: string) =>
      `Of ${design}, for the climate group that finds least: growers, sets, boxes, deviations and the chance; with them the margin and the share who meet a recipe again.`,
    submit: "Take them into the plan",
    stands: "The plan holds these figures.",
    outcomes: {
      TAKEN: "The plan holds these figures now.",
      NO_GROUP_CONNECTED: "So few sets can't link all recipes any more. Load the page again.",
      NO_SUCH_DESIGN: "This design is no longer among those worked out. Load the page again.",
    },
  },

  soFar: {
    title: "How the design stands",
    lead: "Balance and links between recipes in each climate group, and how wide an interval will be. Nothing here knows how anything grew.",
    none: "No set of boxes has been drawn yet, so there is nothing to see.",
    caption: "The design by climate group",
    columns: {
      group: "Climate group",
      sets: "Sets",
      boxes: "Boxes",
      linked: "All recipes linked",
      efficiency: "Efficiency E",
      bound: "At most",
      range: "Boxes per recipe",
      end: "Sets at the end",
      width: "Interval at the end ±",
      worst: "Worst pair ±",
    },
    linkedWords: "Every recipe can be compared with every other through the sets drawn so far.",
    notLinkedWords: (groups: readonly string[]) =>
      `Not every recipe can be compared with every other yet in: ${groups.join("; ")}. Further draws look for the missing links.`,
    balanceCaption: "Boxes picked so far, by recipe and climate group",
    fewHouseholds:
      "Boxes by recipe are not shown for climate groups with fewer than three households: they would tell who got what.",
    recipe: "Recipe",
    thin: (list: readonly string[]) =>
      `Thin so far (under half the mean number of boxes): ${list.join("; ")}.`,
    noThin: "No recipe is thin: each has at least half the mean number of boxes.",
    thinIn: (recipe: string, group: string) => `${recipe} in ${group}`,
    expected: (growersAndSets: string, where: string) =>
      `For the end the plan’s figures are taken: ${growersAndSets} ${where}, with its standard deviations; more where there are more already.`,
    expectedNone:
      "The plan states no growers and deviations, so the end is taken to have as many sets as now, with standard deviations that are assumed.",
  },

  faults: {
    title: "Some figures can’t be used",
    "planner.arms.count": "A trial compares from 2 to 24 recipes.",
    "planner.factor.empty": "Choose at least one.",
    "planner.factor.many": "At most 24.",
    "planner.factor.repeated": "One stands there twice.",
    "planner.waterRatio": "Numbers above 0 and up to 10, such as 0.9 1.2.",
    "planner.minutes": "Whole minutes from 0 to 600, such as 20 40.",
    "planner.boxes": "From 2 to 12 boxes.",
    "planner.boxes.order": "The fewest boxes can’t be more than the most.",
    "planner.growers": "From 1 to 10,000 growers; a climate group without growers can’t answer anything.",
    "planner.sets": "From 1 to 100 sets.",
    "planner.groups.none": "The trial needs a climate group.",
    "planner.groups.many": "At most 30 climate groups.",
    "planner.groups.repeated": "A climate group stands there twice.",
    "planner.deviation": "Above 0 and up to 10: no two boxes are the same.",
    "planner.difference": "Above 0 and up to 4, the width of the scale.",
    "planner.cleanTake": "Both figures lie above 0 and below 100 %; or leave both empty.",
    "planner.cleanTake.sum": "Together they have to stay below 100 %.",
    "planner.margin": "Above 0 and up to 4, the width of the scale.",
    "planner.level": "From 50 to 99.99 %.",
    "planner.share": "From 0 to 100 %.",
  } as Readonly<Record<string, string>>,
} as const;

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
