/** Words of the frame every page stands in, and of the pages that stand in for others. */
export const commonMessages = {
  name: "Grainlot",
  description:
    "Many growers, one fair experiment: which grain, cooked how wet, takes best in boxes set out in woods and meadows, climate group by climate group.",
  skip: "Skip to the content",
  waiting: "On its way …",
  nav: {
    label: "Main",
    trials: "Trials",
    myThings: "My things",
    lead: "Lead",
    admin: "Admin",
    account: "Account",
    signIn: "Sign in",
  },
  footer: {
    health: "Is everything running?",
    demo: "This is a demo: every person, place and figure here is made up.",
  },
  home: {
    title: "Which grain, and how wet, where?",
    lead: "Many growers run one fair experiment with boxes of cooked grain in woods and meadows.",
    sentences: [
      "You cook grain, set it out in boxes, and wait for local fungi and bacteria to move in.",
      "Whether a box takes depends on the grain, how wet it was cooked, the place, the season and the weather, all at once.",
      "A handful of boxes at one place in one week can’t tell these apart; many growers running the same experiment can.",
      "A trial asks one question and says beforehand how it will be answered.",
      "Chance picks the recipe of each of your boxes, and anyone can check afterwards that nobody chose.",
      "You get the amounts to cook, labels, the day to fetch, and a way to find your boxes again.",
      "You record what grew, always by the same steps, also when nothing did.",
      "In the end everyone sees what grew best in which climate, how certain that is, and what isn’t known yet.",
      "Where your boxes stand stays with you: nobody else sees it closer than about 10\u00a0km.",
      "It costs nothing but grain and time, and you can leave whenever you like.",
    ],
    openTrials: "Open trials",
    noOpenTrials: "No trial is open just now. Closed ones and their results are under Trials.",
    allTrials: "All trials",
    signUp: "Make an account",
    withCode: "I have a trial’s code",
  },
  cautions: {
    title: "Before you open a box",
    mould:
      "What grows may be mould, and mould makes spores. Wear an FFP2 or N95 mask and gloves, open boxes outdoors, away from your face, and never sniff on purpose. Keep children and pets away.",
    health:
      "Stay out of it if you have asthma or a weakened immune system. If you are unsure, ask your doctor first.",
    land: "Ask whoever owns the land, keep to local rules, look out for ticks, and don't move material between regions or countries.",
    deference: "Local rules and qualified advice come before anything said here.",
  },
  notFound: {
    title: "There is nothing at this address",
    lead: "It may be mistyped, or it may not be yours to see.",
    home: "To the start page",
  },
} as const;
