import { ARMS_PER_TRIAL } from "@/shared/schemas/plan";
import { PLANNER_LIMITS } from "@/shared/schemas/planner";

const { growersPerGroup, setsPerGrower, groups, levelsPerFactor } = PLANNER_LIMITS;

/** What a request's faults mean on the command line, by the schema's keys. */
const WORDS: Readonly<Record<string, string>> = {
  "planner.arms.count": `a trial compares from ${ARMS_PER_TRIAL.min} to ${ARMS_PER_TRIAL.max} recipes.`,
  "planner.factor.empty": "--grains and --ratios need at least one each.",
  "planner.factor.many": `at most ${levelsPerFactor} grains, ratios or minutes.`,
  "planner.factor.repeated": "a grain, ratio or number of minutes stands there twice.",
  "planner.waterRatio": "--ratios are numbers above 0 and up to 10.",
  "planner.minutes": "--minutes are numbers from 0 to 600.",
  "planner.boxes": "a set has from 2 to 12 boxes (--boxes).",
  "planner.boxes.order": "--boxes: the fewest come first, such as 3-6.",
  "planner.growers": `a climate group has from ${growersPerGroup.min} to ${growersPerGroup.max} growers; without one it can't answer anything.`,
  "planner.sets": `a grower has from ${setsPerGrower.min} to ${setsPerGrower.max} sets, a whole number (--sets).`,
  "planner.groups.many": `at most ${groups.max} climate groups.`,
  "planner.groups.repeated": "two climate groups have the same name.",
  "planner.deviation":
    "a standard deviation is above 0 and at most 10: growers and boxes always differ; if in doubt leave it out.",
  "planner.difference": "--difference is above 0 and at most 4, the width of the growth scale.",
  "planner.cleanTake": "--clean-share and --clean-difference are shares above 0 and below 1, such as 0.3.",
  "planner.cleanTake.sum": "--clean-share and --clean-difference together stay below 1.",
  "planner.ordinal": "--growth-shares are from 2 to 10 numbers above 0.",
  "planner.ordinal.sum": "--growth-shares have to add up to 1.",
  "planner.oddsRatio": "--odds-ratio is above 0, at most 1000 and not 1.",
  "planner.margin": "--margin is above 0 and at most 4, the width of the growth scale.",
  "planner.level": "--level is a number between 0.5 and 0.9999; for 95 % write 0.95.",
  "planner.share": "--meet-again is a share from 0 to 1.",
  "planner.seed": "--seed has from 1 to 60 characters.",
  "code.form":
    "names of grains and climate groups are letters, digits, dots, dashes and underscores, at most 40.",
};

/** One fault as a sentence. */
export function faultWords({ message }: { readonly message: string }): string {
  return WORDS[message] ?? message;
}
