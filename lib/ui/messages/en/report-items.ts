/**
 * What a report of a randomised trial should say about its design, by the item numbers of the CONSORT 2025 statement
 * (Hopewell et al., BMJ 2025;389:e081123, Table 1). The items' names and all answers are in our own words.
 */
export const reportItemMessages = {
  title: "For a report: how it was designed and randomised",
  lead: "Put together from what is stored. Numbers are the items of the CONSORT 2025 statement (Hopewell and others, BMJ 2025;389:e081123); a set of boxes is the block, a box the unit.",

  design: "Design",
  designSays: (recipes: number, boxes: string) =>
    `${recipes} recipes are compared side by side: each set of ${boxes} boxes stands at one place from one day on, and chance picks a recipe for each box. Within a climate group every recipe is to be used equally often, as far as the grains that growers can get allow.`,
  frameworkSays: (comparison: string, margin: string) =>
    `Compared is ${comparison}. One interval answers whether a recipe is better (superiority), equally good (equivalence, within ±${margin} in mean growth) or not worse (non-inferiority).`,
  frameworkNone: "Whether superiority or equivalence is asked was not fixed beforehand.",

  size: "Number of growers and its grounds",
  looks: "Looks in between and stopping",
  looksSays: (looks: string) => `Looks at results by recipe: ${looks}.`,
  earlySays: (rule: string) => `Closing early: ${rule}.`,
  hiddenSays: "Until the close nobody sees growth by recipe, the lead included.",
  hiddenToLooksSays:
    "Until the first look nobody sees growth by recipe, the lead included. Before the close a look is for the lead and for growers who wait for no box.",

  sequence: "Who made the random sequence, and how",
  sequenceSays:
    "The server, at the opening, from a secret of 32 random bytes that nobody typed or saw. For each set of boxes a stream of random numbers (ChaCha20, RFC 8439, keyed by HMAC-SHA-256 of the secret with the trial and the number of the draw) decides.",
  restriction: "Kind of randomisation",
  restrictionSays: (boxes: string) =>
    `In blocks (sets of ${boxes} boxes), within climate group and region. Only recipes whose grain the grower can get take part; among them, those that tell most about the comparison so far come likelier, and chance decides. Then the boxes’ places are shuffled. A recipe comes twice in a set only when there are more boxes than recipes.`,
  restrictionOlderSays: (boxes: string) =>
    `In blocks (sets of ${boxes} boxes), within climate group. Only recipes whose grain the grower can get take part; among them, by the rule named with each draw, those used least so far come first, or those that tell most come likelier, and chance decides. Then the boxes’ places are shuffled.`,
  concealment: "Keeping the sequence hidden",
  concealmentSays:
    "A set’s recipes don’t exist before the grower has fixed its place, day, number of boxes and grains and asks for the draw. It is drawn once, never again, and each draw is chained to the one before by its SHA-256. The secret lies encrypted until the close; its SHA-256, the seal, is public from the opening on. A grower who gives a drawn set up gets the same recipes again in the next one, as far as its boxes and grains allow, and so knows them beforehand; giving up never gets anybody others.",
  access: "Who enrolled, who assigned, and what they could see",
  accessSays:
    "Growers enrol themselves and ask for their own draws; the server assigns. Neither they nor the lead can read the secret. Whoever runs the server could, with its database and its key together: the seal and the chain would show a changed draw, not a look ahead.",
  masked: "Who was masked",
  maskedSays: (hidden: string) =>
    `Not the growers: they cook what was picked for them, and record its growth. ${hidden}`,
  masking: "How",
  maskingSays:
    "The steps that record growth don’t name the recipe, and the share of grain under growth comes first; the grain itself stays visible. What is worked out by recipe is stored without being shown.",
} as const;
