import type { PlannerAdvice } from "@/shared/schemas/planner-result";
import { percent } from "./numbers";

/** One piece of advice as a sentence. */
export function adviceWords(advice: PlannerAdvice): string {
  switch (advice.code) {
    case "FEWER_ARMS":
      return `${advice.arms} recipes are too many for ${growers(advice.growers)}; ${advice.armsThatDo} would do.`;
    case "MORE_GROWERS":
      return advice.growersThatDo === null
        ? `${growers(advice.growers)} are too few, and no number within reach would do.`
        : `${growers(advice.growers)} are too few; ${advice.growersThatDo} would find the difference with a chance of 80 %.`;
    case "ENOUGH":
      return `Enough: the difference is found with a chance of ${percent(advice.power)}.`;
    case "GROWERS_BEFORE_SETS":
      return `Growers before sets: the same sets from ${growers(advice.growersInstead)}, one each, find it with ${percent(advice.powerInstead)} instead of ${percent(advice.power)}.`;
    case "MEET_AGAIN":
      return `Let ${percent(advice.share)} of later sets hold a recipe that their grower has had (planned: ${percent(advice.planned)}); only then can growers' likings be told from chance.`;
    case "NOT_SEPARABLE":
      return "With these sets growers' likings can't be told from chance. The comparison holds all the same; how much growers differ will not be known.";
    case "NOT_CONNECTED":
      return `${advice.sets} sets don't link all recipes by this design; at least ${advice.setsNeeded} are needed by any.`;
    case "FEW_GROWERS":
      return `With ${growers(advice.growers)} every figure is rough.`;
    case "EQUIVALENCE_FAR":
      return `Two equal recipes would be called equally good (within ${advice.margin}) with a chance of only ${percent(advice.power)}${advice.growersThatDo === null ? "; no number of growers within reach changes that." : `; ${advice.growersThatDo} growers make it 80 %.`}`;
  }
}

function growers(count: number): string {
  return count === 1 ? "1 grower" : `${count} growers`;
}
