const inGrams = (g: number) => `${Math.round(g).toLocaleString("en-GB")} g`;

/** Words of jars: what is kept of boxes and preserved in sugar. */
export const jarMessages = {
  title: "Your jars",
  lead: "What you keep of your boxes, in sugar.",
  none: "You have no jar yet. A box can go into one once its growth is recorded.",
  add: "Make a jar",
  older: "Older jars",
  jarOf: (codes: string) => `Jar of ${codes}`,
  amounts: (grain: number, sugar: number) => `${inGrams(grain)} grain, ${inGrams(sugar)} sugar`,

  newTitle: "Make a jar",
  editTitle: "Correct this jar",
  edit: "Correct",
  noBoxes: "None of your boxes is recorded yet. Record what grew first.",
  toBoxes: "To your boxes",
  boxes: "From which boxes?",
  set: (code: string, day: string) => `Set ${code}, ${day}`,
  leftOver: (g: number) => `${inGrams(g)} of it left`,
  notWeighed: "Not weighed",
  grain: (code: string) => `Grain from ${code}`,
  grams: "g",
  sugar: "Sugar",
  sugarHow: "As much as the grain weighs, mixed in at once: it draws the water out before the grain spoils.",
  equal: (g: number) => `Equal weight: ${inGrams(g)}`,
  madeAt: "Made",
  madeAtHint: "If it was just now, leave it empty.",
  madeAtStands: "Leave it empty to keep what stands.",
  save: "Save the jar",
  saveEdit: "Save the correction",
  stale: "This jar was corrected meanwhile, perhaps in another tab. What you typed here is kept.",
  staleStands: (amounts: string) => `It stands with ${amounts}.`,
  keepMine: "Go on with mine",
  takeStanding: "Drop mine",
  sending: "Sending …",

  contents: "What is in it",
  inBox: (code: string, grams: number) => `${code}: ${inGrams(grams)}`,
  sinceOpening: "From opening to sugar",
  hours: (code: string, hours: number) =>
    hours < 48 ? `${code}: ${hours} h` : `${code}: ${Math.round(hours / 24)} days`,
  openingUnknown: (code: string) => `${code}: not known when it was opened`,
  wait: "Grain that waits goes on growing, and spoils in the warm: sugar it on the day the box is opened.",
  ratio: "Sugar to grain",
  ratioOf: (ratio: string) => `${ratio} : 1 by weight`,
  little: "Less than equal weights: it will ferment or mould sooner.",

  activity: "How dry the syrup is",
  activityValue: (activity: string) => `Water activity ${activity} at most`,
  activityUnknown: "Not known: how much water this grain holds has no published figure.",
  activityMeans:
    "Pure water has 1. Many moulds and yeasts still grow at this, so the jar doesn’t keep by sugar alone: keep it cool and watch for bubbling. Equal weights are not shelf-stable by water activity alone.",
  saturatedMeans:
    "That is as much sugar as the water can hold; some stays as crystals. Some yeasts and moulds still grow in it, so keep it cool and watch for bubbling all the same.",
  activityBasis:
    "By Norrish’s equation, from the moisture the recipe should give and the sugar, as if all of it dissolved. Starch and salts are left out, which makes the true figure lower; water the box gained or lost is not counted.",

  cautionTitle: "Before you close it",
  caution: [
    "Leave a third of the jar empty: it works and rises.",
    "Cover it with paper or cloth, never with a tight lid: gas can burst the glass.",
    "Never eat it, and label it so that nobody else does. Keep it away from children and pets.",
    "Don’t take it into another region or country.",
    "Composts and soils can carry Legionella: when you use it, wear gloves and an FFP2 or N95 mask, don’t raise dust or spray, and wash your hands.",
    "Local rules and qualified advice come before anything said here.",
  ],

  delete: "Delete this jar",
  deleteSure: "Delete this jar for good?",
  fromBox: "Put it into a jar",
} as const;
