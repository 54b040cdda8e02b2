import type {
  GrowthDepth,
  OffColour,
  SmellWord,
  TakeClass,
  Unmeasured,
  Warmth,
  Wetness,
} from "@/shared/vocabulary/growth";

const growth: Readonly<Record<TakeClass, { readonly name: string; readonly range: string }>> = {
  0: { name: "None", range: "0 %" },
  1: { name: "Specks", range: "under 10 %" },
  2: { name: "Patches", range: "10 to under 30\u00a0%" },
  3: { name: "Much", range: "30–60 %" },
  4: { name: "Nearly all", range: "over 60 %" },
};

const offColour: Readonly<Record<OffColour, string>> = {
  "blue-green": "blue or green",
  black: "black",
  "yellow-orange": "yellow or orange",
  "pink-red": "pink or red",
};

const depth: Readonly<Record<GrowthDepth, string>> = {
  none: "no growth",
  surface: "on the surface",
  "between-grains": "between the grains",
  through: "all the way through",
  "up-the-walls": "up the walls of the box",
};

const wetness: Readonly<Record<Wetness, string>> = {
  dry: "dry",
  moist: "moist",
  wet: "wet",
  "standing-water": "standing water",
};

const warmth: Readonly<Record<Warmth, string>> = {
  colder: "colder than around it",
  same: "as warm as around it",
  warmer: "warmer than around it",
  hot: "hot",
};

const smell: Readonly<Record<SmellWord, string>> = {
  none: "no smell",
  mushroom: "mushroom",
  earthy: "earthy",
  sweet: "sweet",
  yeasty: "yeasty",
  sour: "sour",
  ammonia: "ammonia",
  rotten: "rotten",
};

const unmeasured: Readonly<Record<Unmeasured, string>> = {
  not_measured: "Not measured",
  cant_tell: "Can't tell",
};

/** Words of what grew, apart so that the record step carries no others. */
export const growthMessages = { growth, offColour, depth, wetness, warmth, smell, unmeasured } as const;
