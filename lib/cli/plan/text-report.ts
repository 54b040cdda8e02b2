import type { PlannerRequest } from "@/shared/schemas/planner";
import type {
  CurvePoint,
  DesignKind,
  Needed,
  PlannerDesign,
  PlannerFactor,
  PlannerFigures,
  PlannerResult,
} from "@/shared/schemas/planner-result";
import { adviceWords } from "./advice-words";
import { percent, simulatedPercent } from "./numbers";

/** Designs in the table; more only repeat the tale. */
const SHOWN_DESIGNS = 10;
/** Sets of the best design written out. */
const SHOWN_SETS = 12;

/** The result as a person reads it in a terminal. */
export function textReport(result: PlannerResult, request: PlannerRequest): string {
  const best = result.designs[0]!;
  const parts = [
    heading(result, request),
    ...request.groups.map((_, g) => designTable(result, g)),
    ...request.groups.map((_, g) => findings(result, request, best, g)),
    best.together === null ? [] : togetherLines(best.together),
    sets(best),
    ordinalLines(result),
    advice(result, request),
    notes(),
  ];
  return parts
    .filter((lines) => lines.length > 0)
    .map((lines) => `${lines.join("\n")}\n`)
    .join("\n");
}

function heading(
  { arms, deviations, deviationsFrom, difference }: PlannerResult,
  request: PlannerRequest,
): string[] {
  const { grower, growerArm, outing, residual } = deviations;
  const { min, max } = request.boxesPerSet;
  const from = deviationsFrom === "assumed" ? "assumed or given" : "from an earlier trial";
  return [
    `${arms} recipes, sets of ${min === max ? min : `${min} to ${max}`} boxes; to find: a difference of ${difference} in mean growth (0-4)`,
    ...request.groups.map(
      ({ code, growers, setsPerGrower }) =>
        `  ${code}: ${growers} growers with ${setsPerGrower} ${setsPerGrower === 1 ? "set" : "sets"} each`,
    ),
    `Standard deviations of growth, ${from}: grower ${grower}, grower x recipe ${growerArm}, set ${outing}, box ${residual}`,
  ];
}

function designTable({ designs }: PlannerResult, g: number): string[] {
  const group = designs[0]!.groups[g]!.group;
  const rows = designs.slice(0, SHOWN_DESIGNS).map((design) => {
    const { efficiency, efficiencyBound, replication, growth } = design.groups[g]!;
    return [
      `${kindWords[design.kind]}, ${design.boxesPerSet} boxes`,
      efficiency.toFixed(4),
      efficiencyBound.value.toFixed(4),
      replication.min === replication.max
        ? String(round(replication.min))
        : `${round(replication.min)}-${round(replication.max)}`,
      growth === null ? "not linked" : percent(growth.power),
      growth === null ? "" : percent(growth.worstPairPower),
      growth === null ? "" : percent(growth.anyDifference.power),
      growth === null ? "" : growth.needed.map(growersOf).join(", "),
    ];
  });
  const head = [
    "",
    "E",
    "at most",
    "boxes/recipe",
    "finds it",
    "worst pair",
    "any differ",
    "growers 80, 90 %",
  ];
  return [`Designs in ${group}, the best first`, ...aligned([head, ...rows])];
}

/** Columns padded to their widest cell, the first to the left. */
function aligned(rows: readonly (readonly string[])[]): string[] {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  return rows.map((row) =>
    row
      .map((cell, column) => (column === 0 ? cell.padEnd(widths[0]!) : cell.padStart(widths[column]!)))
      .join("  ")
      .trimEnd(),
  );
}

function findings(
  { margin, level, difference }: PlannerResult,
  { cleanTake }: PlannerRequest,
  design: PlannerDesign,
  g: number,
): string[] {
  const { group, growth, cleanTake: clean, separability, curve } = design.groups[g]!;
  if (growth === null) return [];
  const { anyDifference: any, simulated } = growth;
  const lines = [
    `${kindWords[design.kind]}, ${design.boxesPerSet} boxes, in ${group}: chance to find`,
    `  a difference of ${difference} between two recipes   ${percent(growth.power)}  (t, ${growth.df} df${simulated ? `; by simulation ${simulatedPercent(simulated)}` : ""})`,
    `  that any two differ so much, F test          ${percent(any.power)}  (${any.df1} and ${any.df2} df)`,
    `  that two equal ones are within ±${margin}        ${percent(growth.equivalencePower)}  (growers for 80, 90 %: ${growth.equivalenceNeeded.map(growersOf).join(", ")})`,
  ];
  if (clean !== null && cleanTake !== null) {
    lines.push(
      `  clean growth, ${percent(cleanTake.baseShare)} against ${percent(cleanTake.baseShare + cleanTake.difference)}              ${simulatedPercent(clean)}  (${clean.runs} simulated trials; growers for 80, 90 %: ${clean.needed.map(growersOf).join(", ")})`,
    );
  }
  for (const { factor, power } of growth.factors) {
    lines.push(`  the difference between ${factorWords[factor]}   ${percent(power)}`);
  }
  if (growth.halfWidth !== null) {
    lines.push(`  ${percent(level)} interval of a difference: ±${growth.halfWidth.toFixed(2)}`);
  }
  lines.push(
    `  growers' likings told from chance: ${separabilityWords(separability)}`,
    "",
    "  growers  chance to find the difference",
    ...curve.map(curveLine),
  );
  return lines;
}

function separabilityWords({ separable, shareNeeded }: PlannerFigures["separability"]): string {
  if (shareNeeded === null) return "no, not with these sets";
  if (shareNeeded === 0) return "yes, as the sets fall";
  return `${separable ? "yes" : "no"}; ${percent(shareNeeded)} of later sets have to hold a recipe met before`;
}

const CURVE_WIDTH = 40;

function curveLine({ growers, difference }: CurvePoint): string {
  return `  ${String(growers).padStart(7)}  ${"█".repeat(Math.round(difference * CURVE_WIDTH)).padEnd(CURVE_WIDTH)} ${percent(difference).padStart(5)}`;
}

function togetherLines({ growers, growth }: PlannerFigures): string[] {
  if (growth === null) return [];
  return [
    `All climate groups together, as if recipes did the same in each: ${growers} growers find the difference with ${percent(growth.power)}.`,
  ];
}

function sets({ kind, firstSets }: PlannerDesign): string[] {
  if (kind === "complete") return [];
  const shown = firstSets.slice(0, SHOWN_SETS).map((set) => set.map((arm) => arm + 1).join(" "));
  return [
    "Its first sets, recipes counted from 1 (an example: a trial's sets are drawn by chance)",
    `  ${shown.join(" | ")}`,
  ];
}

function ordinalLines({ ordinal }: PlannerResult): string[] {
  if (ordinal === null) return [];
  const figures = ordinal.map(({ power, boxesPerArm }) => `${Math.ceil(boxesPerArm)} for ${percent(power)}`);
  return [
    `Growth as ordered classes: boxes per recipe, each from a grower of its own: ${figures.join(", ")}`,
  ];
}

function advice(result: PlannerResult, { groups }: PlannerRequest): string[] {
  const lines = result.advice.map(
    (each) => `  ${groups.length > 1 ? `${each.group}: ` : ""}${adviceWords(each)}`,
  );
  return ["In words", ...lines];
}

function notes(): string[] {
  return [
    "E compares a design with complete sets of as many equally variable boxes. Two recipes are compared within sets,",
    "growers' own likings counted, by t on at most growers - 1 degrees of freedom; of many pairs each stands for itself.",
  ];
}

function growersOf(needed: Needed | null): string {
  return needed === null ? "-" : String(needed.growers);
}

function round(replication: number): number {
  return Math.round(replication * 10) / 10;
}

const kindWords: Readonly<Record<DesignKind, string>> = {
  complete: "complete",
  balanced: "balanced incomplete",
  resolvable: "resolvable",
  cyclic: "cyclic",
  optimised: "optimised",
};

const factorWords: Readonly<Record<PlannerFactor, string>> = {
  grain: "two grains",
  waterRatio: "two water ratios",
  minutes: "two cooking times",
};
