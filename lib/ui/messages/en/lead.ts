import type { ClimatePreset } from "@/shared/vocabulary/climate-presets";

const presets: Readonly<Record<ClimatePreset, string>> = {
  "four-groups": "Four groups: mild and wet, dry summer, dry, cold winter",
  "hot-and-warm-summers": "Five groups: summers wet or dry, hot or warm; and dry",
  "main-letters": "By main letter: tropical, dry, temperate, cold winter",
};

const latitude = (degrees: number) => `${Math.abs(degrees)}° ${degrees < 0 ? "south" : "north"}`;
const longitude = (degrees: number) => `${Math.abs(degrees)}° ${degrees < 0 ? "west" : "east"}`;

/** Words of the pages where trials are made and watched over. */
export const leadMessages = {
  list: {
    title: "Trials you lead",
    lead: "Make a trial, open it when its plan is ready, and watch how far it has come.",
    none: "You lead no trial yet.",
    noneAndMayNot: "You lead no trial. Whoever runs this server can allow you to make one.",
    make: "Make a trial",
    columns: { seats: "Seats taken", endsOn: "Last day" },
    seats: (taken: number, all: number) => `${taken} of ${all}`,
  },
  status: { draft: "Draft", open: "Open", closed: "Closed" },
  invented: "This trial and all its data are made up.",
  make: {
    title: "A new trial",
    lead: "This makes a draft that only you see. Recipes come next; nothing is fixed before you open it.",
    mayNot: "Whoever runs this server can allow you to make trials.",
    submit: "Make the draft",
    name: "Title",
    question: "Question",
    questionHint: "One question the trial can answer, such as: which of these grains takes best?",
    boxesMin: "Fewest boxes in a set",
    boxesMax: "Most boxes in a set",
    boxesHint: "A set with a box for every recipe tells most. From 2 to 12.",
    endsOn: "Last day",
    endsOnHint:
      "No set of boxes is planned for a later day. Results by recipe come out when the trial closes.",
    groups: "Climate groups",
    groupsLead:
      "Places are pooled by their climate group. A place whose climate class stands in no group can't take part. This is fixed when the trial opens.",
    preset: "Start from",
    presets,
    presetKept: "As they stand",
    grouping: "Groups",
    groupingHint: "One a line: a short name, a colon, then climate classes, such as “dry: BSk, BSh”.",
    regions: "Regions",
    regionsLead:
      "Where growers may come from, and how many households from each. Leave a region empty to leave it out.",
    noRegions: "There is no region yet; describe the first one below.",
    seats: (region: string) => `Seats in ${region}`,
    extent: (south: number, north: number, west: number, east: number) =>
      `${latitude(south)} to ${latitude(north)}, ${longitude(west)} to ${longitude(east)}`,
    newRegion: "A further region",
    newRegionLead:
      "Leave all of it empty if the regions above are enough. Degrees to one decimal; west and south are negative.",
    regionName: "Name",
    south: "Southern edge",
    north: "Northern edge",
    west: "Western edge",
    east: "Eastern edge",
    capacity: "Seats",
    degrees: "°",
  },
  edit: {
    title: "Change a draft",
    lead: "Question, boxes, end, climate groups and regions. Nothing is fixed before you open it.",
    submit: "Save",
    back: "Back to the draft",
  },
  draft: {
    lead: "A draft. Only you see it. Nothing is fixed before you open it.",
    /** What a draft needs, each part with what it says in one line. */
    steps: {
      title: "What it needs before it opens",
      question: {
        title: "Question, boxes, end and climate groups",
        says: (fewest: number, most: number, endsOn: string, groups: number) =>
          `${fewest} to ${most} boxes in a set; last day ${endsOn}; ${groups} climate ${groups === 1 ? "group" : "groups"}.`,
      },
      regions: {
        title: "Regions and seats",
        says: (regions: number, seats: number) =>
          `${regions} ${regions === 1 ? "region" : "regions"}, ${seats} seats.`,
      },
      recipes: {
        title: "Recipes",
        says: (recipes: number) =>
          recipes === 0 ? "None yet." : `${recipes} ${recipes === 1 ? "recipe" : "recipes"}.`,
      },
      design: {
        title: "How many growers, how many boxes",
        none: "Not worked out yet. With few growers or many recipes the trial may not be able to find what it asks for.",
        some: (growers: number) => `Worked out for ${growers} growers in each climate group.`,
        forOthers: (planned: number, recipes: number) =>
          `Worked out for ${planned} recipes, and the draft has ${recipes}. Work it out again before opening, or the plan promises a chance it doesn't have.`,
      },
      decided: {
        title: "How it is decided",
        says: (comparison: string, margin: string) => `${comparison}; equally good within ${margin}.`,
      },
      open: {
        title: "Read the plan and open the trial",
        ready: "Nothing is missing.",
        notYet: "Not yet: see above.",
      },
    },
    recipes: "Recipes",
    noRecipes: "No recipe yet. A trial compares at least two.",
    remove: (code: string) => `Take out ${code}`,
    add: "Add recipes from your shelf",
    addSubmit: "Add those ticked",
    shelfEmpty: "All recipes on your shelf are in, or it is empty.",
    makeRecipe: "Make a recipe",
    leads: "Who leads this trial",
    planTitle: "The plan as it would stand",
    planLead:
      "All of this is fixed when the trial opens, and anyone can read it. What you haven’t changed has a sensible value.",
    open: "Open the trial",
    openLead:
      "Opening fixes the recipes and the whole plan above for good, and makes the secret that the chance of every draw comes from. Its seal is published, so that nobody can choose afterwards. Later only amendments with a date and a reason are possible.",
    confirm: "I have read the plan; from here on it stands.",
    submit: "Open it",
  },
  choices: {
    title: "How it is decided",
    lead: "What the trial promises about its results, in advance. Every field has a value that does for most trials.",
    comparing: "What is compared",
    comparison: "Main comparison",
    comparisonHint: "Everything else is worked out too, and called secondary.",
    comparisons: {
      "all-pairs": {
        label: "Every recipe with every other",
        hint: "When you don’t know beforehand which matters.",
      },
      "against-best": {
        label: "Every recipe with the best",
        hint: "When you only want to know what to cook.",
      },
      "against-reference": {
        label: "Every recipe with one you name",
        hint: "When there is a usual recipe; finds smaller differences.",
      },
    },
    reference: "The one to compare with",
    margin: "Two recipes count as equally good within",
    marginHint: "Mean growth, on the scale of 0 to 4. 0.5 is half a class.",
    looks: "Looks at results by recipe",
    looksHint:
      "The one at the end included. Each look in between costs a little of what can be found at the end.",
    looksOption: (n: number) => (n === 1 ? "1, at the end" : `${n}`),
    hidden: "When results stay hidden",
    minimumBoxes: "Boxes that each recipe needs in a climate group",
    minimumGrowers: "Growers that each recipe needs in a climate group",
    minimumHint: (least: number) => `Results stay hidden below this. At least ${least}.`,
    ends: "When it ends",
    endsAtBoxes: "Also ends when so many boxes are recorded",
    endsAtBoxesHint: (day: string) => `Leave empty to let it run to its last day, ${day}.`,
    early: "Closing early",
    earlyRules: {
      never: { label: "Not before the end", hint: "The safest promise." },
      "every-cell-at-minimum": {
        label: "Once every recipe has enough everywhere",
        hint: "The minimum above, in every climate group.",
      },
      "lead-may-close-marked": {
        label: "Whenever you decide",
        hint: "You see nothing by recipe before; readers are told that it was early.",
      },
    },
    boxes: "What growers do",
    fetch: "When boxes are fetched",
    fetchRules: {
      "by-growth": {
        label: "As the growth looks",
        hint: "The grower judges. Close to how it is done anyway.",
      },
      "same-day": { label: "All after the same number of days", hint: "Growth is compared at one age." },
      staged: {
        label: "On a day picked for each set",
        hint: "Shows how growth goes on, for some loss per day.",
      },
    },
    fetchDays: "Days after they were set out",
    fetchDaysHint: "One number for the same day, such as 5; two to six for picked days, such as 4 6 8.",
    again: "Later sets that hold a recipe the grower had before",
    againHint:
      "Only so can it be seen whether growers differ in which recipe suits them. 20 % does for most.",
    percent: "%",
    boxLimits: "Limits to the boxes",
    boxLimitsLead:
      "Leave all of it empty to take any untreated box with up to 7.5 cm of grain. Limits make sets more alike, and fewer growers fit.",
    boxKinds: "Boxes may be of (none ticked: any)",
    leastDepth: "Grain at least so deep",
    mostDepth: "Grain at most so deep",
    leastSpacing: "Boxes at least so far apart",
    cm: "cm",
    submit: "Save",
    back: "Back to the draft",
  },
  amendments: {
    title: "Amendments",
    lead: "The plan stands as it opened. What has to change all the same is added with its date and reason, for everyone to read, and chained to the plan by its fingerprint.",
    make: "Amend the plan",
    kind: "What changes",
    kinds: {
      endsOn: { label: "The last day" },
      endsAtBoxes: { label: "The number of boxes it ends at" },
      clarification: { label: "Nothing: a word is made clearer" },
    },
    endsOn: "New last day",
    endsAtBoxes: "Ends at so many recorded boxes",
    clarification: "What is made clearer",
    reason: "Reason",
    reasonHint: "Everyone can read it. No names, no places.",
    submit: "Amend",
  },
  running: {
    joinTitle: "Invite growers",
    joinLead: "Give growers this address or the code.",
    address: "Address",
    code: "Code",
    publicPage: "The trial's public page",
    results: "Results",
    seatsCaption: "Seats taken",
    curtain: "Results by recipe are still hidden, from you too. Here all recipes are together.",
    noSets: "No set of boxes has been drawn yet.",
    close: "Close the trial",
    closeLead:
      "Closing ends it for good: no more sets are drawn, boxes without a record count as lost, the secret behind all draws is published and everyone's results are worked out.",
    closeEarly: (endsOn: string, rule: string) =>
      `Its last day is ${endsOn}. By its plan: ${rule}. Readers will be told that it closed early.`,
    over: "The trial has come to its end: no further set is drawn. Close it once the last boxes are recorded.",
    plan: "The plan",
    planLead: "Read it. It was fixed when the trial opened.",
    opened: "Opened",
    planHash: "Fingerprint of the plan",
    seal: "Seal (SHA-256 of the secret)",
    design: "How the design stands",
    confirm: "I want to close it now.",
    submit: "Close it",
    closedOn: (day: string) => `Closed on ${day}. The secret behind all draws is published.`,
  },
  /** By the reason an action refuses with. */
  outcomes: {
    ARMS_ADDED: "What you ticked is in.",
    NO_RECIPE_TICKED: "Tick at least one recipe.",
    MAY_NOT_LEAD: "Whoever runs this server can allow you to make trials.",
    ENDS_IN_PAST: "The last day has to lie in the future.",
    UNKNOWN_REGION: "One of the regions is gone. Load the page again.",
    TRY_AGAIN: "That did not work out. Send it again.",
    NOT_FOUND: "There is nothing here for you.",
    TRIAL_NOT_DRAFT: "The trial has opened meanwhile: its plan stands.",
    TRIAL_NOT_OPEN: "The trial isn't open.",
    RECIPE_NOT_ON_SHELF: "Put the recipe on your shelf first.",
    RECIPE_ALREADY_IN: "This recipe is in already.",
    TOO_MANY_RECIPES: "A trial compares at most 24 recipes.",
    TOO_FEW_RECIPES: "Add recipes first: a trial compares at least two.",
    NO_REGION: "The trial has no seat in any region.",
    GROUPING_FAULTY: "The climate groups can't be used: mend them in the draft.",
    REFERENCE_NOT_IN_TRIAL:
      "The recipe to compare with isn't in the trial. Choose another under “How it is decided”.",
    RECIPE_IS_REFERENCE:
      "All others are compared with this recipe. Choose another comparison first, under “How it is decided”.",
    FETCH_AFTER_END:
      "Boxes set out now would be fetched after the trial's last day: move the day or the fetch.",
    ENDS_BEFORE_MINIMUM:
      "The trial would end with fewer boxes than its recipes need in one climate group: raise the number or lower the minimum.",
    CLOSES_AT_ITS_END_ONLY: "Its plan lets it close at its end only.",
    MINIMUM_NOT_REACHED:
      "Its plan lets it close early only once every recipe has its minimum of boxes and growers in every climate group.",
    BOXES_ALREADY_RECORDED: "So many boxes are recorded already.",
    NOTHING_CHANGES: "It stands so already.",
    END_ONLY_LATER: "By its plan the trial may not close early, so its end can only be moved to later.",
    AMENDED: "The amendment stands, and everyone can read it.",
    CONFIRM: "Tick the box first.",
    INVALID: "Some answers can't be used. Mend the ones marked.",
  },
  /** By the code a field's schema gives; codes of climate groups stand with the other fields' words. */
  faults: {
    "title.length": "Give the trial a title of 3 to 80 characters.",
    "question.length": "Write the question the trial asks, in at most 300 characters.",
    "boxes.range": "A whole number from 2 to 12.",
    "boxes.order": "The fewest boxes can't be more than the most.",
    "endsOn.form": "Give the last day.",
    "endsOn.past": "The last day has to lie in the future.",
    "seats.range": "A whole number from 1 to 1000.",
    "region.extent": "Type degrees, such as 42.5.",
    "region.tenth": "One decimal is enough.",
    "region.name": "Give the region a name of up to 60 characters.",
    "region.order": "South lies below north, and west below east.",
    "regions.none": "Give at least one region seats, or describe a new one.",
  },
} as const;
