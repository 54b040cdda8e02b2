import { type ClimateGrouping, classesUnder } from "./climate";

/** Groupings to start from when a trial is made; each may be changed. Ours, no source. */
export const CLIMATE_PRESETS = {
  "four-groups": [
    { code: "mild-wet", classes: ["Cfa", "Cfb", "Cfc"] },
    { code: "dry-summer", classes: ["Csa", "Csb", "Csc"] },
    { code: "dry", classes: ["BSh", "BSk", "BWh", "BWk"] },
    { code: "cold-winter", classes: ["Dfa", "Dfb", "Dfc", "Dsa", "Dsb", "Dsc"] },
  ],
  "hot-and-warm-summers": [
    { code: "wet-hot-summer", classes: ["Cfa"] },
    { code: "wet-warm-summer", classes: ["Cfb", "Cfc"] },
    { code: "dry-hot-summer", classes: ["Csa"] },
    { code: "dry-warm-summer", classes: ["Csb", "Csc"] },
    { code: "dry", classes: ["BSh", "BSk"] },
  ],
  "main-letters": [
    { code: "tropical", classes: classesUnder("A") },
    { code: "dry", classes: classesUnder("B") },
    { code: "temperate", classes: classesUnder("C") },
    { code: "cold-winter", classes: classesUnder("D") },
  ],
} as const satisfies Readonly<Record<string, ClimateGrouping>>;

export type ClimatePreset = keyof typeof CLIMATE_PRESETS;
