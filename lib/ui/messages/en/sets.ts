import type { AbandonReason } from "@/shared/vocabulary/box";

const orList = (numbers: readonly number[]) =>
  new Intl.ListFormat("en-GB", { type: "disjunction" }).format(numbers.map(String));
const boxes = (n: number) => (n === 1 ? "1 box" : `${n} boxes`);

/** Words of a grower's sets of boxes, from planning to fetching. */
export const setMessages = {
  plan: {
    title: "Plan a set of boxes",
    lead: (trial: string) => `For “${trial}”. Nothing is picked yet; you see first what you would need.`,
    notJoined: "You don’t take part in that trial, or there is none such.",
    chooseTrial: "For which trial?",
    noTrial: "You don’t take part in an open trial yet.",
    findTrial: "Look for a trial",
    closed: "That trial has closed.",
    agree: "Read and agree",
    place: "Place",
    placeNone: (region: string) =>
      `None of your places lies in your region, ${region}, and in one of this trial’s climate groups.`,
    placeOutside: (name: string) => `\u2068${name}\u2069: outside the region`,
    placeNoGroup: (name: string) => `\u2068${name}\u2069: its climate is in none of the groups`,
    day: "Day you want to set them out",
    boxes: "How many boxes",
    boxesHint: (min: number, max: number) => `${min} to ${max} in this trial, all alike.`,
    boxTitle: "The boxes",
    boxKind: "Made of",
    boxKindHint: "No treated wood, no paint, no varnish.",
    boxKindLimits: (kinds: string) => `No treated wood, no paint, no varnish. This trial takes ${kinds}.`,
    innerLength: "Inner length",
    innerWidth: "Inner width",
    innerHeight: "Inner height",
    innerHeightHint: "From the bottom to the cover. Leave it empty if you can’t measure it.",
    grainDepth: "How deep the grain will lie",
    grainDepthHint: "At most 7.5 cm, so that it stays aired.",
    grainDepthLimits: (from: string, to: string) => `From ${from} to ${to} cm in this trial.`,
    cm: "cm",
    cover: "Cover",
    coverClear: "Does the cover stand clear of the grain?",
    coverClearHint: "It should not touch it: growth needs the air above.",
    coverClearChoices: {
      yes: "yes, there is air between",
      no: "no, it touches",
      unknown: "I don’t know yet",
    },
    guard: "Against animals and rain",
    spacingLimit: (cm: number) => `Boxes stand at least ${cm} cm apart in this trial.`,
    grains: "Grains you have or can get",
    grainsHint: "Chance picks among the recipes these allow. You can’t change them once it has.",
    permissionChange: "Is that no longer so?",
    permissionNeeded: "Ask first: boxes are planned only where they may stand.",
    ticks: "Look out for ticks, and don’t bring material from another region or country.",
    save: "See what I would need",
    editTitle: "Change the plan",
    editLead: "Until chance has picked the recipes, everything may change.",
    saveChange: "Save the change",
    backToSet: "Back to the set",
  },

  outings: {
    title: "My boxes",
    none: "You have no boxes yet. Join a trial and plan a set.",
    plan: "Plan a set of boxes",
    places: "Your places",
    recipes: "Your recipes",
    older: "Older sets",
    setFor: (day: string) => `for ${day}`,
    placeGone: "A place since deleted",
    recordBox: (code: string) => `Record ${code}`,
    boxStates: {
      unrecorded: (code: string) => `${code}: not recorded`,
      recorded: (code: string) => `${code}: recorded, growth not known`,
      growth: (code: string, name: string) => `${code}: ${name}`,
    },
    due: {
      draw: "Next: let chance pick the recipes",
      cook: "Next: cook",
      setOut: "Next: set out",
      fetchBetween: (earliest: string, likely: string) =>
        earliest === likely
          ? `Fetch around ${likely}, as a guide`
          : `Fetch between ${earliest} and ${likely}, as a guide`,
      fetchOn: (day: string) => `Fetch on ${day}, however it looks`,
      fetchUnknown: "Set out. Look for it after 4 to 5 days near 20 °C, later when it is colder",
      record: (codes: string) => `Not recorded yet: ${codes}`,
      done: "All recorded",
      givenUp: "Given up",
    },
  },

  outing: {
    title: (code: string) => `Set ${code}`,
    lead: (n: number, place: string, day: string) => `${boxes(n)} · \u2068${place}\u2069 · ${day}`,
    mostTitle: "What you would need at most",
    mostLead:
      "So much of each grain could come up. The figures don’t add up: no draw needs all of it. Buy it first, then let chance pick.",
    mostUnknown:
      "One of the recipes is given in cups whose weight is not known, so the amounts can’t be worked out.",
    grain: "Grain",
    atMost: "At most, dry",
    grams: (g: number) => `${Math.round(g).toLocaleString("en-GB")}\u00a0g`,
    litres: (ml: number) => `${(ml / 1000).toFixed(1)} L`,
    perBoxVolume: (litres: string) => `Each box holds about ${litres} of cooked grain.`,
    drawTitle: "Let chance pick the recipes",
    drawLead:
      "Do it at home: the woods may have no signal. From then on the set stands as planned: place, boxes and grains can’t change, and it is never picked again. You can still move the day, or give the set up; the draw then stays in the list.",
    drawButton: "Pick the recipes now",
    drawWaits:
      "Four sets of your household are picked and not set out yet. Set one of them out first, or give up one that you won’t set out.",
    edit: "Change the plan",
    planTitle: "As planned",
    boxSize: (length: string, width: string, height: string | null) =>
      `${length} × ${width}${height === null ? "" : ` × ${height}`} cm inside`,
    grainDepth: (cm: string) => `${cm} cm of grain`,
    coverTouches: "the cover touches the grain: lower the grain or lift the cover",
    box: "Box",
    coverAndGuard: "Cover and guard",
    cookTitle: "What to cook",
    coolCaution:
      "Cooked grain spoils when it stays warm. Cool it quickly, in a thin layer, and have it out within an hour or two; don’t leave it on the stove overnight. Don’t eat what has stood in a box.",
    coolCautionTitle: "Cool it quickly",
    forBoxes: "For",
    perBox: (grain: string, water: string) => `Each box: ${grain} dry grain, ${water} water`,
    weighYourself:
      "Weigh a cup of this grain first: its weight is not published, so the amounts can’t be worked out.",
    assumed:
      "Amounts rest on published figures for each grain. Weigh what goes in; a little may be left over.",
    whenTitle: "When to fetch",
    papersTitle: "Papers and calendar",
    sheet: "Field sheet and labels",
    calendar: "Days for your calendar (.ics)",
    moveTitle: "Move the day",
    moveLead: "The recipes stay as they were picked.",
    moveDay: "New day",
    moveButton: "Move it",
    shortTitle: "One box too few",
    shortLead: (code: string) =>
      `Then ${code}, the one with the highest number, is left out. Which recipe that is was settled by chance; don’t swap it with another.`,
    shortButton: (code: string) => `Leave ${code} out`,
    leftOut: (codes: string) => `Left out because a box was missing: ${codes}.`,
    standingTitle: "Where and how they stand",
    sunk: "Sunk",
    spacing: "Apart",
    cm: (value: string) => `${value} cm`,
    notMeasured: "not measured",
    pictures: "Pictures",
    readiness: (meanC: string, earliest: number, likely: number) =>
      `A guide: at this month’s usual ${meanC} °C a box is worth opening ${
        earliest === likely ? `after about ${likely} days` : `after ${earliest} to ${likely} days`
      }. Warm spells shorten it. Nothing shows in the first day.`,
    readinessSource:
      "By the published rule of 4–5 days near 20 °C (University of Hawaiʻi CTAHR, BIO-9, 2008).",
    readinessUnknown:
      "When boxes will be ready can’t be said for this place: too cold, or its monthly temperatures are not known.",
    fetchAfter: (days: number) =>
      `Fetch all boxes ${days === 1 ? "one day" : `${days} days`} after you set them out, however they look.`,
    fetchOn: (day: string) => `Fetch all boxes on ${day}, however they look.`,
    fetchDrawn:
      "Chance picked this day for your set; it is part of what the trial finds out. If you can’t be there that day, fetch them when you can and say when it was.",
    fetchSameDay:
      "Every set of this trial is fetched after the same number of days. If you can’t be there that day, fetch them when you can and say when it was.",
    stagedDays: (days: readonly number[]) =>
      `Chance also picks when you fetch the boxes: ${orList(days)} days after you set them out.`,
    comesBack: (code: string) =>
      `You gave up set ${code}. Its recipes come back in this set, as far as its boxes and your grains allow.`,
    cameBack: (code: string) => `The recipes of set ${code}, which you gave up, came back in this set.`,
    cameBackPart: (code: string, kept: number, of: number) =>
      kept === 0
        ? `The recipes of set ${code}, which you gave up, could not come back: their grains are missing here.`
        : `Of the ${of} recipes to come back from set ${code}, which you gave up, ${kept} came back in this set. The others did not fit its boxes and grains.`,
    proofTitle: "Proof that nobody chose",
    proofCheck: "See whether it stands",
    proofLead:
      "Keep this. Once the trial closes, its secret is published and anyone can make this pick again.",
    proof: {
      number: "Pick number",
      short: "Short fingerprint",
      hash: "Fingerprint of this pick",
      previous: "Fingerprint of the pick before",
      seal: "Seal of the trial",
      algorithm: "Rule",
    },
    giveUpTitle: "Give up this set",
    giveUpLead: "Its draw stays in the list. Boxes without a record count as lost, not as failed.",
    giveUpReason: "Why",
    giveUpNote: "In your own words, if you like",
    giveUpButton: "Give it up",
    givenUp: "This set was given up. What you record of its boxes is still kept.",
    reasons: {
      "no-time": "No time",
      "grain-missing": "A grain was missing",
      "no-access": "Can’t get to the place",
      weather: "Weather",
      other: "Something else",
    } satisfies Readonly<Record<AbandonReason, string>>,
    closedNote:
      "This trial has closed. What you record now is kept, but its results don’t rest on it any more.",
  },

  sheet: {
    title: (code: string) => `Field sheet, set ${code}`,
    back: "Back to the set",
    print: "Print",
    withRecipes: "With the recipes on it",
    withoutRecipes: "Without the recipes",
    lead: "For the pocket. The recipes stand on it only if you want them there: who doesn’t know them records more freely.",
    trial: "Trial",
    setOutOn: "Set out on",
    fetch: "Fetch",
    fetchBetween: (from: string, to: string) =>
      from === to ? `around ${from}` : `between ${from} and ${to}`,
    fetchUnknown: "as the growth looks",
    fetchOn: (day: string) => `on ${day}, however they look`,
    scan: "Open this set",
    scanWords: "This picture leads to the set’s page, for you only.",
    mapTitle: "The boxes as they stand",
    place: "No.",
    label: "Label",
    recipe: "Recipe",
    setOutAt: "Out at",
    fetchedAt: "Fetched at",
    openedAt: "Opened at",
    happened: "What happened",
    notesTitle: "Spacing, depth, anything else",
    labelsTitle: "Labels",
    labelsLead: "Cut out and tie on, one per box, where rain can’t reach the ink.",
    cautions: [
      "Outdoors, FFP2 or N95 mask and gloves on, the box away from your face. Never sniff on purpose.",
      "Children and pets away. Stay out of it with asthma or a weakened immune system.",
      "Permission of whoever owns the land, local rules, ticks. Nothing of it is for eating.",
      "Local rules and qualified advice come first.",
    ],
    cautionTitle: "Before opening",
  },

  calendar: {
    fileName: (code: string) => `set-${code}.ics`,
    setOut: (code: string) => `Set out boxes ${code}`,
    fetch: (code: string) => `Fetch boxes ${code}`,
    setOutWords: (trial: string, url: string) =>
      `${trial}. Cook and cool the grain the same day. Take mask, gloves and labels along. ${url}`,
    fetchWords: (trial: string, isFixed: boolean, url: string) =>
      `${trial}. ${isFixed ? "On this day, however they look." : "A guide: look at the growth; warm spells shorten it."} Mask and gloves. ${url}`,
  },
} as const;
