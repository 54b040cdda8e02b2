/** The 30 classes of the Köppen–Geiger system as printed by Peel, Finlayson & McMahon (2007), Table 1. */
export const KOPPEN_CLASSES = [
  "Af",
  "Am",
  "Aw",
  "BWh",
  "BWk",
  "BSh",
  "BSk",
  "Csa",
  "Csb",
  "Csc",
  "Cwa",
  "Cwb",
  "Cwc",
  "Cfa",
  "Cfb",
  "Cfc",
  "Dsa",
  "Dsb",
  "Dsc",
  "Dsd",
  "Dwa",
  "Dwb",
  "Dwc",
  "Dwd",
  "Dfa",
  "Dfb",
  "Dfc",
  "Dfd",
  "ET",
  "EF",
] as const;

export type KoppenClass = (typeof KOPPEN_CLASSES)[number];

/** The five main letters: tropical, dry, temperate, cold, polar. */
export const KOPPEN_MAIN_LETTERS = ["A", "B", "C", "D", "E"] as const;

export type KoppenMainLetter = (typeof KOPPEN_MAIN_LETTERS)[number];

const CLASS_SET: ReadonlySet<string> = new Set(KOPPEN_CLASSES);

export function isKoppenClass(text: string): text is KoppenClass {
  return CLASS_SET.has(text);
}

export function mainLetterOf(koppenClass: KoppenClass): KoppenMainLetter {
  return koppenClass.charAt(0) as KoppenMainLetter;
}

/** The classes under one main letter, in the order of the printed table. */
export function classesUnder(letter: KoppenMainLetter): readonly KoppenClass[] {
  return KOPPEN_CLASSES.filter((koppenClass) => mainLetterOf(koppenClass) === letter);
}

/** Where a site's climate class comes from: a weather station, the half-degree grid, the grower's own numbers. */
export const CLIMATE_SOURCES = ["station", "grid", "own"] as const;

export type ClimateSource = (typeof CLIMATE_SOURCES)[number];

/** One climate group (climate band) of a trial: its code and the classes pooled in it. */
export interface ClimateGroup {
  readonly code: string;
  readonly classes: readonly KoppenClass[];
}

/** A trial's climate grouping, stated before it opens. Classes in no group cannot take part. */
export type ClimateGrouping = readonly ClimateGroup[];

/** What is wrong with a grouping; `at` is the path of the offending group or class. */
export interface GroupingFault {
  readonly code: "NO_GROUPS" | "GROUP_EMPTY" | "CODE_REPEATED" | "CLASS_REPEATED";
  readonly at: readonly (string | number)[];
}

/** Every fault of a grouping, none when it may be used: each class at most once, no group empty, codes distinct. */
export function groupingFaults(grouping: ClimateGrouping): readonly GroupingFault[] {
  if (grouping.length === 0) return [{ code: "NO_GROUPS", at: [] }];
  const faults: GroupingFault[] = [];
  const codes = new Set<string>();
  const classes = new Set<KoppenClass>();
  grouping.forEach((group, g) => {
    if (codes.has(group.code)) faults.push({ code: "CODE_REPEATED", at: [g, "code"] });
    codes.add(group.code);
    if (group.classes.length === 0) faults.push({ code: "GROUP_EMPTY", at: [g, "classes"] });
    group.classes.forEach((koppenClass, c) => {
      if (classes.has(koppenClass)) faults.push({ code: "CLASS_REPEATED", at: [g, "classes", c] });
      classes.add(koppenClass);
    });
  });
  return faults;
}
