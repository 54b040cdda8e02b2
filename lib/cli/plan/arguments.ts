import { parseArgs } from "node:util";
import { ASSUMED_DEVIATIONS, type PlannerRequest, plannerRequestSchema } from "@/shared/schemas/planner";
import { faultWords } from "./fault-words";

export type ReadRequest =
  | { readonly ok: true; readonly help: true }
  | { readonly ok: true; readonly help: false; readonly json: boolean; readonly request: PlannerRequest }
  | { readonly ok: false; readonly messages: readonly string[] };

const OPTIONS = {
  arms: { type: "string" },
  grains: { type: "string" },
  ratios: { type: "string" },
  minutes: { type: "string" },
  boxes: { type: "string" },
  growers: { type: "string" },
  sets: { type: "string" },
  group: { type: "string", multiple: true },
  difference: { type: "string" },
  "sd-grower": { type: "string" },
  "sd-grower-arm": { type: "string" },
  "sd-outing": { type: "string" },
  "sd-residual": { type: "string" },
  earlier: { type: "boolean", default: false },
  "clean-share": { type: "string" },
  "clean-difference": { type: "string" },
  margin: { type: "string", default: "0.5" },
  "growth-shares": { type: "string" },
  "odds-ratio": { type: "string" },
  "meet-again": { type: "string", default: "0" },
  level: { type: "string", default: "0.95" },
  seed: { type: "string", default: "grainlot" },
  json: { type: "boolean", default: false },
  help: { type: "boolean", short: "h", default: false },
} as const;

type Values = ReturnType<typeof parse>;
type TextOption = Exclude<keyof typeof OPTIONS, "group" | "earlier" | "json" | "help">;

/** The planner's request from the command line, or every reason why it can't be. */
export function readRequest(argv: readonly string[]): ReadRequest {
  let values: Values;
  try {
    values = parse(joinNegatives(argv));
  } catch (error) {
    return refuse([`${(error as Error).message} See grainlot plan --help.`]);
  }
  if (values.help) return { ok: true, help: true };
  const faults: string[] = [...whatIsMissing(values)];
  const typed = requestOf(values, faults);
  if (faults.length > 0) return refuse(faults);
  const parsed = plannerRequestSchema.safeParse(typed);
  if (!parsed.success) return refuse([...new Set(parsed.error.issues.map(faultWords))]);
  return { ok: true, help: false, json: values.json, request: parsed.data };
}

function parse(argv: readonly string[]) {
  return parseArgs({ args: [...argv], allowPositionals: false, options: OPTIONS }).values;
}

function refuse(messages: readonly string[]): ReadRequest {
  return { ok: false, messages };
}

/** What has no default and was left out. */
function* whatIsMissing(values: Values): Generator<string> {
  const { arms, grains, ratios, minutes, growers, sets, group } = values;
  if (arms === undefined && grains === undefined)
    yield "how many recipes? Write --arms N, or --grains and --ratios.";
  if (arms !== undefined && (grains ?? ratios ?? minutes) !== undefined) {
    yield "write either --arms or --grains, --ratios and --minutes.";
  }
  if (arms === undefined && grains !== undefined && ratios === undefined) {
    yield "--grains needs --ratios, such as 0.8,1.1.";
  }
  if (values.boxes === undefined)
    yield "how many boxes in a set? Write --boxes 3, or --boxes 3-6 for a range.";
  if (growers === undefined && group === undefined) yield "how many growers? Write --growers N.";
  if ((growers ?? sets) !== undefined && group !== undefined) {
    yield "write either --growers and --sets or --group NAME:GROWERS:SETS for each climate group.";
  }
  if (values.difference === undefined)
    yield "which difference should be found? Write --difference 0.5 or another.";
  if ((values["clean-share"] === undefined) !== (values["clean-difference"] === undefined)) {
    yield "--clean-share and --clean-difference belong together.";
  }
  if ((values["growth-shares"] === undefined) !== (values["odds-ratio"] === undefined)) {
    yield "--growth-shares and --odds-ratio belong together.";
  }
}

/** The request as typed; what is no number is added to `faults`. */
function requestOf(values: Values, faults: string[]) {
  const number = (name: TextOption) => numberOf(values[name] ?? "0", `--${name}`, faults);
  const list = (name: TextOption) => listOf(values[name], `--${name}`, faults);
  const deviation = (name: "sd-grower" | "sd-grower-arm" | "sd-outing" | "sd-residual", assumed: number) =>
    values[name] === undefined ? assumed : number(name);
  const clean = values["clean-share"] !== undefined;
  return {
    arms:
      values.arms === undefined
        ? {
            kind: "factorial",
            grains: (values.grains ?? "").split(",").map((grain) => grain.trim()),
            waterRatios: list("ratios"),
            minutes: list("minutes"),
          }
        : { kind: "list", count: number("arms") },
    boxesPerSet: boxRange(values.boxes ?? "0", faults),
    groups: values.group?.map((text) => groupOf(text, faults)) ?? [
      {
        code: "all",
        growers: number("growers"),
        setsPerGrower: values.sets === undefined ? 1 : number("sets"),
      },
    ],
    deviations: {
      grower: deviation("sd-grower", ASSUMED_DEVIATIONS.grower),
      growerArm: deviation("sd-grower-arm", ASSUMED_DEVIATIONS.growerArm),
      outing: deviation("sd-outing", ASSUMED_DEVIATIONS.outing),
      residual: deviation("sd-residual", ASSUMED_DEVIATIONS.residual),
    },
    deviationsFrom: values.earlier ? "earlier-trial" : "assumed",
    difference: number("difference"),
    cleanTake: clean ? { baseShare: number("clean-share"), difference: number("clean-difference") } : null,
    ...(values["growth-shares"] === undefined
      ? {}
      : { ordinal: { shares: list("growth-shares"), oddsRatio: number("odds-ratio") } }),
    margin: number("margin"),
    level: number("level"),
    meetAgainShare: number("meet-again"),
    seed: values.seed,
  };
}

function numberOf(text: string, name: string, faults: string[]): number {
  const trimmed = text.trim();
  if (/^[+-]?(\d+\.?\d*|\.\d+)$/.test(trimmed)) return Number(trimmed);
  faults.push(`${name} ${text} is not a number; write it with a decimal point, such as 0.5.`);
  return 0;
}

function listOf(text: string | undefined, name: string, faults: string[]): number[] {
  return text === undefined ? [] : text.split(",").map((one) => numberOf(one, name, faults));
}

function boxRange(text: string, faults: string[]): { min: number; max: number } {
  const range = /^(\d+)(?:-(\d+))?$/.exec(text.trim());
  if (!range) {
    const count = numberOf(text, "--boxes", faults);
    return { min: count, max: count };
  }
  return { min: Number(range[1]), max: Number(range[2] ?? range[1]) };
}

function groupOf(text: string, faults: string[]) {
  const [code = "", growers = "", sets = "1", ...more] = text.split(":");
  if (more.length > 0 || growers === "") {
    faults.push(`--group ${text} is not of the form NAME:GROWERS:SETS, such as mild-wet:40:2.`);
    return { code, growers: 1, setsPerGrower: 1 };
  }
  const name = `--group ${code}:`;
  return { code, growers: numberOf(growers, name, faults), setsPerGrower: numberOf(sets, name, faults) };
}

/** Joins `--margin -1` to `--margin=-1`, so that it is read and refused for what it is, not as a missing value. */
function joinNegatives(argv: readonly string[]): string[] {
  const joined: string[] = [];
  for (const word of argv) {
    const before = joined.at(-1) ?? "";
    if (/^-\.?\d/.test(word) && /^--[a-z-]+$/.test(before)) joined[joined.length - 1] = `${before}=${word}`;
    else joined.push(word);
  }
  return joined;
}
