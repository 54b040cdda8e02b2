import type { PlannerRequest } from "@/shared/schemas/planner";
import type { DesignFigures } from "@/shared/schemas/planner-result";
import { tQuantile } from "../../statistics/distributions";
import { informationMatrix } from "../information";
import { boxesByArm, type DrawTally } from "../tally";
import { efficiencyBound, efficiencyOf, pairVariances } from "./information";

/** An arm with less than this share of the mean number of boxes is thin. */
const THIN = 0.5;

export interface RunningGroup {
  readonly group: string;
  readonly arms: number;
  /** The group's draws so far. */
  readonly tally: DrawTally;
  /** Growers and sets there will be at the planned end, those so far included. */
  readonly growersAtEnd: number;
  readonly setsAtEnd: number;
}

/**
 * How a running trial's design stands in one climate group and how wide the interval of a difference will be at the
 * planned end, from the draws alone: no outcome is read.
 *
 * The end is foreseen as the same pattern of draws going on: C grows with the number of sets. Grower × arm counts for
 * σ²_e + m σ²_ga in place of σ²_e, m the boxes a grower has of an arm they meet: all boxes spread evenly over the arms,
 * one at least. For complete sets, and where no recipe comes twice to a grower, that is exact.
 * @param level of the interval, t on growers − 1
 */
export function designFigures(
  { group, arms, tally, growersAtEnd, setsAtEnd }: RunningGroup,
  deviations: Pick<PlannerRequest["deviations"], "growerArm" | "residual">,
  level: number,
): DesignFigures {
  const replication = boxesByArm(tally, arms);
  const boxes = replication.reduce((sum, r) => sum + r, 0);
  const information = informationMatrix(tally, arms);
  const pairs = pairVariances(information, arms);
  const mean = boxes / arms;
  const base = {
    group,
    sets: tally.draws,
    boxes,
    replication,
    thinArms: replication.flatMap((r, arm) => (r < THIN * mean ? [arm] : [])),
    connected: pairs !== null,
    efficiency: efficiencyOf(pairs, replication),
    efficiencyBound: boxes === 0 ? null : efficiencyBound(information, replication),
    growersAtEnd,
    setsAtEnd,
  };
  if (pairs === null || growersAtEnd < 2) {
    return { ...base, halfWidthAtEnd: null, worstHalfWidthAtEnd: null };
  }
  const boxesPerArm = Math.max(1, ((setsAtEnd / growersAtEnd) * (boxes / tally.draws)) / arms);
  const perBox = deviations.residual ** 2 + boxesPerArm * deviations.growerArm ** 2;
  const t = tQuantile(1 - (1 - level) / 2, growersAtEnd - 1);
  const halfWidth = (variance: number) => t * Math.sqrt((variance * perBox * tally.draws) / setsAtEnd);
  return {
    ...base,
    halfWidthAtEnd: halfWidth(pairs.mean),
    worstHalfWidthAtEnd: halfWidth(pairs.worst),
  };
}
