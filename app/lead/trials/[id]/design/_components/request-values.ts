import type { LeadTrialRow } from "@/lib/services/lead/read";
import { typedNumber } from "@/lib/ui/form-numbers";
import type { PlanChoices } from "@/shared/schemas/plan";
import { ASSUMED_DEVIATIONS, type PlannerRequest, plannerRequestSchema } from "@/shared/schemas/planner";

/** The query of the design page, as Next gives it. */
export type Query = Readonly<Record<string, string | readonly string[] | undefined>>;

/** What the form's fields hold, by their names in the query; growers and sets of a group as `growers.<code>`. */
export interface RequestValues {
  readonly grains: readonly string[];
  readonly texts: Readonly<Record<string, string>>;
}

const DEVIATIONS = ["grower", "growerArm", "outing", "residual"] as const;
export type DeviationName = (typeof DEVIATIONS)[number];
export const DEVIATION_NAMES: readonly DeviationName[] = DEVIATIONS;

const RECIPES_WHERE_NONE_ARE_KNOWN = 6;
const SETS_EACH = 2;
const LEVEL = 0.95;

/** What stands in the fields before anything was typed: the draft's own figures, else what is commonly assumed. */
export function defaultValues(trial: LeadTrialRow, choices: PlanChoices): RequestValues {
  const basis = choices.sampleSize;
  const seats = trial.regions.reduce((sum, { capacity }) => sum + capacity, 0);
  const growers = basis?.growersPerGroup ?? Math.max(1, Math.floor(seats / trial.grouping.length));
  const sd = basis?.sd ?? ASSUMED_DEVIATIONS;
  return {
    grains: [],
    texts: {
      as: "list",
      ratios: "",
      minutes: "",
      count: String(trial.arms.length >= 2 ? trial.arms.length : RECIPES_WHERE_NONE_ARE_KNOWN),
      boxesMin: String(trial.boxesMin),
      boxesMax: String(trial.boxesMax),
      ...Object.fromEntries(
        trial.grouping.flatMap(({ code }) => [
          [`growers.${code}`, String(growers)],
          [`sets.${code}`, String(basis?.setsPerGrower ?? SETS_EACH)],
        ]),
      ),
      ...Object.fromEntries(DEVIATIONS.map((name) => [`sd.${name}`, String(sd[name])])),
      sdFrom: basis?.sdFrom ?? "assumed",
      difference: String(basis?.difference ?? 0.75),
      margin: String(choices.margin),
      cleanBase: "",
      cleanMore: "",
      again: String(Math.round(choices.meetAgainShare * 1000) / 10),
    },
  };
}

/** A query string as Next would give it. */
export function queryOf(text: string): Query {
  const params = new URLSearchParams(text);
  return Object.fromEntries(
    [...new Set(params.keys())].map((name) => {
      const all = params.getAll(name);
      return [name, all.length > 1 ? all : all[0]];
    }),
  );
}

/** The same the other way round. */
export function queryText(query: Query): string {
  const params = new URLSearchParams();
  for (const [name, value] of Object.entries(query)) {
    for (const each of [value ?? []].flat()) params.append(name, each);
  }
  return params.toString();
}

/** What was typed, where something was. */
export function typedValues(query: Query, defaults: RequestValues): RequestValues {
  const grains = query.grain === undefined ? [] : [query.grain].flat();
  const texts = Object.fromEntries(
    Object.entries(defaults.texts).map(([name, standing]) => {
      const typed = query[name];
      return [name, typeof typed === "string" ? typed.trim() : standing];
    }),
  );
  return { grains, texts };
}

export type Typed =
  | { readonly ok: true; readonly request: PlannerRequest }
  /** Codes by field. */
  | { readonly ok: false; readonly faults: Readonly<Record<string, string>> };

/** The planner's request from what was typed, or what is wrong with which field. */
export function requestOf(values: RequestValues, trial: Pick<LeadTrialRow, "id" | "grouping">): Typed {
  const { texts, grains } = values;
  const groupCodes = trial.grouping.map(({ code }) => code);
  const number = (name: string) => typedNumber(texts[name] ?? "");
  const clean = texts.cleanBase === "" && texts.cleanMore === "";
  const parsed = plannerRequestSchema.safeParse({
    arms:
      texts.as === "grid"
        ? {
            kind: "factorial",
            grains,
            waterRatios: numbersOf(texts.ratios),
            minutes: numbersOf(texts.minutes),
          }
        : { kind: "list", count: number("count") },
    boxesPerSet: { min: number("boxesMin"), max: number("boxesMax") },
    groups: groupCodes.map((code) => ({
      code,
      growers: number(`growers.${code}`),
      setsPerGrower: number(`sets.${code}`),
    })),
    deviations: Object.fromEntries(DEVIATIONS.map((name) => [name, number(`sd.${name}`)])),
    deviationsFrom: texts.sdFrom,
    difference: number("difference"),
    cleanTake: clean ? null : { baseShare: number("cleanBase") / 100, difference: number("cleanMore") / 100 },
    margin: number("margin"),
    level: LEVEL,
    meetAgainShare: number("again") / 100,
    seed: `design-${trial.id}`,
  });
  if (parsed.success) return { ok: true, request: parsed.data };
  const faults: Record<string, string> = {};
  for (const { path, message } of parsed.error.issues) {
    faults[fieldAt(path, groupCodes, texts.as === "grid")] ??= message;
  }
  return { ok: false, faults };
}

/** Numbers apart by blanks or semicolons, each with a decimal point or comma. */
function numbersOf(text = ""): number[] {
  return text
    .split(/[\s;]+/)
    .filter(Boolean)
    .map(typedNumber);
}

/** The form's field for a place in the request. */
function fieldAt(path: readonly PropertyKey[], groupCodes: readonly string[], isGrid: boolean): string {
  const [part, detail, figure] = path.map(String);
  switch (part) {
    case "arms":
      if (detail === "waterRatios") return "ratios";
      if (detail === "minutes") return "minutes";
      return isGrid ? "grains" : "count";
    case "boxesPerSet":
      return detail === "max" ? "boxesMax" : "boxesMin";
    case "groups":
      return `${figure === "setsPerGrower" ? "sets" : "growers"}.${groupCodes[Number(detail)] ?? ""}`;
    case "deviations":
      return `sd.${detail}`;
    case "cleanTake":
      return detail === "difference" ? "cleanMore" : "cleanBase";
    case "deviationsFrom":
      return "sdFrom";
    case "meetAgainShare":
      return "again";
    default:
      return part ?? "";
  }
}
