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
    place: "Place",
    placeNone: (region: string) =>
      `None of your places lies in your region, ${region}, and in one of this trial’s climate groups.`,
    placeOutside: (name: string) => `${name}: outside the region`,
    placeNoGroup: (name: string) => `${name}: its climate is in none of the groups`,
    day: "Day you want to set them out",
    boxes: "How many boxes",
    boxesHint: (min: number, max: number) => `${min} to ${max} in this trial, all alike.`,
    boxKind: "Made of",
    innerLength: "Inner length",
    innerWidth: "Inner width",
    grainDepth: "How deep the grain will lie",
    grainDepthHint: "At most 7.5 cm, so that it stays aired.",
    cm: "cm",
    cover: "Cover",
    guard: "Guard",
    grains: "Grains you have or can get",
    grainsHint: "Chance picks among the recipes these allow. You can’t change them once it has.",
    permission: "I may set out boxes there: whoever owns the land agrees and local rules allow it.",
    permissionNeeded: "Ask first, then tick this box.",
    ticks: "Look out for ticks, and don’t bring material from another region or country.",
    save: "See what I would need",
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
    lead: (n: number, place: string, day: string) => `${boxes(n)} · ${place} · ${day}`,
    mostTitle: "What you would need at most",
    mostLead:
      "So much of each grain could come up. The figures don’t add up: no draw needs all of it. Buy it first, then let chance pick.",
    mostUnknown:
      "One of the recipes is given in cups whose weight is not known, so the amounts can’t be worked out.",
    grain: "Grain",
    atMost: "At most, dry",
    grams: (g: number) => `${Math.round(g).toLocaleString("en-GB")} g`,
    litres: (ml: number) => `${(ml / 1000).toFixed(1)} L`,
    perBoxVolume: (litres: string) => `Each box holds about ${litres} of cooked grain.`,
    drawTitle: "Let chance pick the recipes",
    drawLead:
      "From then on the set stands as planned: place, boxes and grains can’t change, and it is never picked again. You can still give it up; the draw then stays in the list.",
    drawButton: "Pick the recipes now",
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
    labelsTitle: "Labels and boxes",
    print: "Print this sheet and the labels",
    grainWater: (grain: string, water: string) => `${grain} dry grain, ${water} water`,
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

  box: {
    onRecord: "On record",
    nothingOnRecord: "Nothing on record yet.",
    takeBack: "Take back",
    takeBackLabel: (event: string) => `Take back: ${event}`,
    tellFor: (code: string) => `${code}: tell what was done or happened`,
    what: "What",
    whatGroups: {
      cooking: "Cooking",
      stage: "On its way",
      happening: "What happened to it",
      recordability: "Can you still record growth?",
    },
    when: "When",
    whenHint: "Now, unless you change it.",
    note: "In your own words, if you like",
    otherwiseHint: "For “cooked otherwise”, say here what was different.",
    save: "Save",
    saved: "Saved.",
    savedLate: "Saved. The trial has closed, so its results don’t rest on it.",
    record: "Record growth",
    correct: "Correct the record",
    growth: (name: string, range: string) => `Growth: ${name} (${range})`,
    growthUnknown: "Recorded, growth not known",
    clean: "clean",
    notClean: "not clean",
    allTitle: "All boxes at once",
    allLead: "For what holds for every box: cooked as picked, set out, fetched.",
  },
} as const;
