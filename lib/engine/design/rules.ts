import type { DrawRule } from "./draw";
import { leastDrawnFirst } from "./rule-1";
import { mostInformative } from "./rule-2";

/** The rule new draws are made by. A changed rule gets a new name; the old one stays, to replay old draws. */
export const DRAW_ALGORITHM = "grainlot-draw/2";

/** Draws the arms of an outing's boxes by the current rule; nothing but its arguments decides. */
export const drawAllocation: DrawRule = mostInformative;

/** From the oldest to the newest. */
const RULES: ReadonlyMap<string, DrawRule> = new Map([
  ["grainlot-draw/1", leastDrawnFirst],
  [DRAW_ALGORITHM, mostInformative],
]);
const NAMES = [...RULES.keys()];

/** The rule of that name, or undefined when this version of Grainlot does not know it. */
export function drawRule(algorithm: string): DrawRule | undefined {
  return RULES.get(algorithm);
}

/** Which generation of rules this is, 1 for the first; 0 when it is not known. A trial never goes back to an earlier one. */
export function generationOf(algorithm: string): number {
  return NAMES.indexOf(algorithm) + 1;
}
