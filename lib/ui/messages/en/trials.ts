import type { MoistureUnknown } from "@/lib/engine/grain/moisture";

const unknownWater: Readonly<Record<MoistureUnknown, string>> = {
  DRAINED_WATER: "how much water is poured off",
  WATER_NOT_TAKEN_FROM_STEAM: "how much water stays under the steamer",
  SOAK_UPTAKE: "what the grain takes up while soaking",
  RINSE_WATER_AND_STARCH: "what rinsing adds and takes away",
  COLD_RINSE_UPTAKE: "what the cold rinse adds",
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
  finalResults: "Final results",
  wait: "Wait for a seat",
  more: "More about this trial",
  recipesDetail: "How each is cooked, and how moist it should come out",
  nextTime: "Take part next time",
  nextTimeNone:
    "No further season is open. Look whether another trial asks something like it, or ask in your growers’ group whether somebody will lead it again.",
  openTrials: "Open trials",

  recipes: "Recipes",
  recipesLead:
    "Chance picks among these for each box. Water is compared by weight, so that cups and scales stand on one line.",
  recipe: "Recipe",
  waterByMass: (ratio: string) => `${ratio} g water per g of grain`,
  moisture: (figure: string) => `moisture when cooked: ${figure}`,
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
  flowExact: "All recipes together, as released.",
  flowLossesCaption:
    "Boxes whose growth could not be recorded, by what happened; one may count more than once",
  flowReason: "What happened",
  flowLost: "Boxes",
  flowHidden: "Shown once there are 5 boxes of 3 households.",
  flowCaption: "Boxes by how far they have come",
  flowStep: "Step",
  flowBoxes: "Boxes, at least",
  drawn: "recipe picked",
  cooked: "cooked",
  setOut: "set out",
  opened: "opened",
  recorded: "recorded",
  lost: "lost",
  notThere: "–",
} as const;
