import type { ReleaseFile } from "@/lib/services/read-release";

const growersWords = (n: number) => (n === 1 ? "1 grower" : `${n} growers`);
const boxesWords = (n: number) => (n === 1 ? "1 box" : `${n} boxes`);
const setsWords = (n: number) => (n === 1 ? "1 set of boxes" : `${n} sets of boxes`);

/** Words of final results: the lead's page that releases them, the public page, and the text on methods. */
export const releaseMessages = {
  title: "Final results",
  pageTitle: (trial: string) => `Final results: ${trial}`,
  released: (day: string) => `Released ${day}. Nothing in it changes any more.`,
  rests: (growers: number, sets: number, boxes: number) =>
    `${growersWords(growers)}, ${setsWords(sets)}, ${boxesWords(boxes)}.`,
  link: "Rows, methods and how to cite it",
  toResults: "What it comes to, by climate group",
  toTrial: "To the trial’s page",
  none: "This trial has no final results yet.",

  cite: "How to cite it",
  citation: ({ title, day, hash }: { title: string; day: string; hash: string }) =>
    `“${title}”. Final results of a Grainlot trial, ${day}. SHA-256 ${hash}.`,
  inventedCitation: "All of it is invented.",

  files: "Take it along",
  filesLead: "No account is needed. Each file stays as it is for good.",
  file: {
    "rows.csv": "Every drawn box, one a line (CSV)",
    "figures.json": "The figures the command makes from the rows (JSON)",
    "results.json": "All figures of the results page (JSON)",
    "methods.txt": "How it was done (text)",
    "plan.json": "The plan as it was fixed at the opening (JSON)",
    "release.json": "What belongs to it, each part with its fingerprint (JSON)",
  } as Readonly<Record<ReleaseFile, string>>,
  ledger: "Every draw, with the secret that made it (JSON)",
  size: (bytes: number) => (bytes < 10_000 ? `${bytes} bytes` : `${Math.round(bytes / 1000)} kB`),

  check: "Check it yourself",
  checkSteps: (command: string, hash: string) => [
    `The SHA-256 of release.json is ${hash}: sha256sum release.json.`,
    "release.json names the SHA-256 of every other file: sha256sum rows.csv figures.json results.json methods.txt plan.json.",
    `The figures come from the rows alone: ${command} prints figures.json.`,
    "Each row’s set and place stand in the ledger with the recipe that was picked: grainlot verify makes every pick again.",
  ],
  rowsTitle: "What a row says",
  column: {
    grower: "the household’s made-up name in this trial, as in the ledger",
    outing: "the set of boxes, by its name in the ledger",
    band: "climate group; groups of fewer than 3 growers stand together",
    region: "region",
    arm: "recipe, by its letter",
    box: "the set and the box’s place in it; no code of a label",
    available: "recipes that the grower could have cooked for this set",
    outcome: "growth from 0 to 4 by the grower’s latest record; empty when it could not be told",
    status: "graded, or lost: growth could not be recorded",
    clean_take: "1 where growth was 3 or more with at most 10 % other colours, 0 where not",
    cooked: "whether it was cooked as picked, otherwise, or not",
    happened: "what happened to it",
    usable_g: "grams of usable grain, where weighed",
    total_g: "grams of all its grain, where weighed",
    days_out: "whole days from set-out to fetch",
    season: "quarter of the year in which the set stood out",
    warmth:
      "degree-days above 5 °C in the five days from set-out, in classes; empty where the grower noted no weather",
    spot_used_before: "1 where a set of the trial stood at the same place on an earlier day",
    second_looks: "growth seen on its photographs by others, each as grader:growth",
  } as Readonly<Record<string, string>>,
  methodsTitle: "How it was done",
  joined: (groups: readonly string[]) =>
    `${new Intl.ListFormat("en-GB").format(groups)} had fewer than 3 growers each, or were needed to make 3, and stand as one climate group.`,
  ledgerNote:
    "The ledger of the draws, public since the close, tells climate group and region of every set under the household’s made-up name, as growers agreed to at joining.",

  lead: {
    title: "Release final results",
    lead: "Once, and for good: rows, figures and methods, for anyone to read, cite and check. Look at them first.",
    tooFew:
      "Fewer than 3 households have boxes in this trial: rows would show single households, so there is nothing to release.",
    done: "It is released. Everyone can read it.",
    toPublic: "To the final results",
    what: "What will be public",
    whatLead:
      "What growers agreed to at joining: made-up names, climate group, region, recipe, what became of each box. No place, no day, no code of a label, no own words, no picture.",
    rowsCaption: "The first rows",
    moreRows: (rows: number) => `${rows} rows in all.`,
    figures: "The figures, worked out from these rows",
    figuresLead: "Small cells show from then on, as whoever has the rows can work them out.",
    confirmTitle: "Release it",
    confirm: "I have looked at it. It is public from now on and can never be changed or taken back.",
    submit: "Release",
    back: "To the trial",
    outcomes: {
      NOT_FOUND: "There is nothing here for you.",
      TRIAL_NOT_CLOSED: "Only a closed trial can be released.",
      ALREADY_RELEASED: "It has been released before.",
      TOO_FEW_HOUSEHOLDS: "Fewer than 3 households have boxes in this trial.",
      CHANGED_MEANWHILE: "The rows are no longer those you looked at. Look again and then release.",
      INVALID: "Nothing was released.",
      CONFIRM: "Tick the box first.",
    } as Readonly<Record<string, string>>,
  },

  export: {
    title: "Take boxes along",
    lead: "For a spreadsheet or a program of your own. Growers stand in it under their made-up names of this trial.",
    boxes: "Every drawn box, one a line (CSV)",
    boxesNote: {
      open: "When it was set out, fetched and opened, what happened to it, and its latest record. Which recipe it has stays hidden until the close.",
      closed:
        "When it was set out, fetched and opened, what happened to it, its latest record, and its recipe’s letter.",
    },
    rows: "The rows behind the results (CSV)",
    rowsNote: {
      open: "Come with the close.",
      closed:
        "What the analysis reads, recipe by recipe; the command grainlot pool makes the figures from it.",
    },
  },

  methods: {
    heading: (title: string) => `How the trial “${title}” was done`,
    invented: "All people, places and figures of this trial are invented.",
    question: (text: string) => `Question: ${text}`,
    course: (opened: string, closed: string, released: string) =>
      `Opened ${opened}, closed ${closed}, released ${released}.`,
    design:
      "Each set of boxes is a block: one grower, one place, one day. Recipes were picked by chance for each box after place, number of boxes and grains at hand were fixed (rule and random stream stand in the ledger). The unit of the analysis is the grower, that is a household.",
    plan: (hash: string) => `Plan, fixed at the opening: SHA-256 ${hash}.`,
    noAmendments: "The plan was not amended.",
    amendment: (number: number, day: string, reason: string, hash: string) =>
      `Amendment ${number}, ${day}: ${reason} (SHA-256 ${hash})`,
    seal: (seal: string) => `Seal of the trial’s secret: ${seal}.`,
    ledger: (draws: number, lastHash: string) => `Ledger: ${draws} draws, the last one ${lastHash}.`,
    flow: ({
      drawn,
      cooked,
      setOut,
      opened,
      recorded,
      lost,
    }: Record<"drawn" | "cooked" | "setOut" | "opened" | "recorded" | "lost", number>) =>
      `Boxes: ${drawn} with a recipe picked, ${cooked} cooked, ${setOut} set out, ${opened} opened, ${recorded} recorded, ${lost} lost (growth could not be recorded, or nothing came by the close).`,
    losses: (kinds: readonly string[]) =>
      `What happened to boxes whose growth could not be recorded: ${kinds.join("; ")}.`,
    analysis: (engine: string) =>
      `Analysis, as drawn, by ${engine}: a linear mixed model of growth with a mean for every recipe in every climate group and for every set of recipes a grower could have cooked, random set of boxes, grower and grower by recipe; restricted maximum likelihood, Satterthwaite’s degrees of freedom. All pairs within a climate group by Tukey–Kramer, with the best by Hsu, with a reference by Dunnett; a rank test within sets clustered by grower; clean growth by Mantel–Haenszel and conditional logistic regression within sets; shares by Wilson at the effective number of boxes. Lost boxes stay in the data with their recipe and are counted by recipe.`,
    level: (level: string) => `Intervals of ${level}.`,
    command: (command: string) => `The same figures from the rows: ${command}`,
    rows: "Rows: pseudonyms as in the ledger; no place, no day, no label’s code; climate groups of fewer than 3 growers stand as one.",
    cautions:
      "Cautions: seasons, places and growers taking part by their own choice limit what holds elsewhere. Growers knew what they cooked. Mould spores call for an FFP2/N95 mask and gloves, outdoors, away from the face; nothing that grew is for eating. Local rules and qualified advice come first.",
  },
} as const;
