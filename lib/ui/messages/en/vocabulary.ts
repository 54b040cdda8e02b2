import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { BoxEventKind, BoxKind, Cover, Guard } from "@/shared/vocabulary/box";
import type { ClimateGroup, ClimateSource, KoppenClass } from "@/shared/vocabulary/climate";
import { isKoppenClass } from "@/shared/vocabulary/climate";
import type { CookMethod, CoolingWay, GrainForm, GrainId, RatioBasis } from "@/shared/vocabulary/grain";
import { growthMessages } from "./growth";

const grain: Readonly<Record<GrainId, string>> = {
  amaranth: "amaranth",
  "barley-hulled": "hulled barley",
  "barley-pearl": "pearl barley",
  "brown-rice-long": "brown rice, long grain",
  "brown-rice-medium": "brown rice, medium grain",
  buckwheat: "buckwheat",
  "buckwheat-roasted": "roasted buckwheat",
  maize: "maize",
  millet: "millet",
  oats: "oats",
  quinoa: "quinoa",
  rye: "rye",
  sorghum: "sorghum",
  spelt: "spelt",
  teff: "teff",
  triticale: "triticale",
  "wheat-hard-spring": "hard spring wheat",
  "wheat-hard-winter": "hard winter wheat",
  "wheat-khorasan": "khorasan wheat",
  "wheat-soft-white": "soft white wheat",
  "white-rice-long": "white rice, long grain",
  "white-rice-parboiled": "parboiled white rice",
  "wild-rice": "wild rice",
};

const grainForm: Readonly<Record<GrainForm, string>> = {
  whole: "whole kernels",
  cracked: "cracked",
  flaked: "flaked",
};

const ratioBasis: Readonly<Record<RatioBasis, string>> = {
  mass: "by weight",
  volume: "by volume",
};

const cookMethod: Readonly<Record<CookMethod, string>> = {
  absorption: "lid on, until the water is taken up",
  "rice-cooker": "rice cooker",
  "pressure-cooker": "pressure cooker",
  "boil-drain": "boiled in plenty of water, the rest poured off",
  steam: "steamed",
  "pour-over": "boiling water poured on, left to stand",
  none: "not heated",
};

const cooling: Readonly<Record<CoolingWay, string>> = {
  "spread-thin": "spread out thin",
  "open-pot": "in the open pot",
  "closed-pot": "in the closed pot",
  refrigerated: "in the refrigerator",
  "cold-rinse": "with a cold rinse",
};

const boxKind: Readonly<Record<BoxKind, string>> = {
  softwood: "softwood",
  hardwood: "hardwood",
  plywood: "plywood",
  bamboo: "bamboo",
  basket: "basket",
  cardboard: "cardboard",
};

const cover: Readonly<Record<Cover, string>> = {
  paper: "paper",
  cloth: "cloth",
  "wooden-lid": "wooden lid",
  "fine-mesh": "fine mesh",
  none: "no cover",
};

const guard: Readonly<Record<Guard, string>> = {
  none: "nothing around it",
  weighted: "weighed down",
  "wire-cage": "wire cage",
  "rain-roof": "roof against rain",
  "wire-cage-and-roof": "wire cage and roof",
};

const event: Readonly<Record<BoxEventKind, string>> = {
  "set-out": "Set out",
  fetched: "Fetched",
  opened: "Opened",
  "cooked-as-drawn": "Cooked as picked",
  "cooked-otherwise": "Cooked otherwise",
  "not-cooked": "Not cooked",
  "nothing-happened": "Nothing happened to it",
  animal: "An animal was at it",
  person: "A person was at it",
  "rain-inside": "Rain got inside",
  "cover-off": "The cover was off",
  moved: "It was moved",
  "looked-in": "Looked in and put back",
  "label-gone": "The label was gone",
  "growth-recordable": "Growth can be recorded",
  "growth-not-recordable": "Growth can't be recorded any more",
  withdrawal: "Taken back",
};

/** The printed criteria of each class, said plainly; the names follow Peel, Finlayson & McMahon (2007), Table 1. */
const koppen: Readonly<Record<KoppenClass, string>> = {
  Af: "tropical, rain in every month",
  Am: "tropical, monsoon rain",
  Aw: "tropical, with a dry season",
  BWh: "hot desert",
  BWk: "cold desert",
  BSh: "hot and rather dry",
  BSk: "cool and rather dry",
  Csa: "mild winters, hot dry summers",
  Csb: "mild winters, warm dry summers",
  Csc: "mild winters, cool dry summers",
  Cwa: "mild dry winters, hot summers",
  Cwb: "mild dry winters, warm summers",
  Cwc: "mild dry winters, cool summers",
  Cfa: "mild winters, hot summers, rain all year",
  Cfb: "mild winters, warm summers, rain all year",
  Cfc: "mild winters, cool summers, rain all year",
  Dsa: "cold winters, hot dry summers",
  Dsb: "cold winters, warm dry summers",
  Dsc: "cold winters, cool dry summers",
  Dsd: "very cold winters, dry summers",
  Dwa: "cold dry winters, hot summers",
  Dwb: "cold dry winters, warm summers",
  Dwc: "cold dry winters, cool summers",
  Dwd: "very cold dry winters",
  Dfa: "cold winters, hot summers, rain or snow all year",
  Dfb: "cold winters, warm summers, rain or snow all year",
  Dfc: "cold winters, cool summers, rain or snow all year",
  Dfd: "very cold winters, rain or snow all year",
  ET: "tundra: no month above 10 °C",
  EF: "frost all year",
};

const climateSource: Readonly<Record<ClimateSource, string>> = {
  station: "nearest weather station",
  grid: "half-degree climate grid",
  own: "your own numbers",
};

/** Words for every value of a closed list, and for what is put together from several. */
export const vocabularyMessages = {
  ...growthMessages,
  grain,
  grainForm,
  ratioBasis,
  cookMethod,
  cooling,
  boxKind,
  cover,
  guard,
  event,
  koppen,
  climateSource,
  /**
   * A climate group's name: its class in words, or its own code where it holds several classes; of groups that a
   * release joins (a `+` between their codes) all their names.
   */
  climateGroupName: ({ code, classes }: Pick<ClimateGroup, "code" | "classes">): string => {
    if (code.includes("+")) {
      const names = code
        .split("+")
        .map((one) => vocabularyMessages.climateGroupName({ code: one, classes: [] }));
      return new Intl.ListFormat("en-GB").format(names);
    }
    if (isKoppenClass(code)) return capitalised(koppen[code]);
    const [only] = classes;
    return classes.length === 1 && only
      ? capitalised(koppen[only])
      : capitalised(code.replaceAll(/[-_]/g, " "));
  },
  /** Its classes, with their letters. */
  climateGroupClasses: ({ classes }: Pick<ClimateGroup, "classes">): string =>
    classes.map((koppenClass) => `${koppenClass} (${koppen[koppenClass]})`).join("; "),
  /** What tells a recipe apart at a glance: "Pearl barley 1.5 : 1 by weight"; the ratio never breaks over lines. */
  recipeName: ({ grain: id, waterToGrain, ratioBasis: basis }: VariantContent): string =>
    `${capitalised(grain[id])} ${waterToGrain}\u00a0:\u00a01 ${ratioBasis[basis]}`,
  /** The same where all recipes compare water and grain alike, which is said once. */
  recipeShortName: ({ grain: id, waterToGrain }: VariantContent): string =>
    `${capitalised(grain[id])} ${waterToGrain}\u00a0:\u00a01`,
  /** How it is cooked, from the dry grain to the cooled one. */
  recipeSteps: (content: VariantContent): string =>
    [
      grainForm[content.form],
      content.rinsed ? "rinsed" : "not rinsed",
      content.soakHours > 0 ? `soaked ${content.soakHours} h` : "not soaked",
      content.cookMinutes > 0
        ? `${cookMethod[content.cookMethod]}, ${content.cookMinutes} min`
        : cookMethod[content.cookMethod],
      `cooled ${cooling[content.cooling]}`,
    ].join("; "),
} as const;

function capitalised(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}
