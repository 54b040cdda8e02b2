import type { Transaction } from "@/lib/data/client";
import { findLeadTrial } from "@/lib/data/lead";
import { progressByGroup } from "@/lib/data/lead-progress";
import { boxesByArm, type DrawTally, sumTallies } from "@/lib/engine/design/tally";
import { readTallies } from "@/lib/services/draw-tallies";
import { type TrialEnds, takesNoMoreDraws } from "@/lib/services/trial-ends";
import type { AuthorizedTrialId } from "./authorise";

/** How the design of one climate group has come out so far; what grew isn't in it. */
export interface GroupDesign {
  readonly band: string;
  /** All its draws; sets that received an abandoned set's recipes count once, with their first draw. */
  readonly tally: DrawTally;
  /** By region code. */
  readonly regions: ReadonlyMap<string, DrawTally>;
  /** Boxes drawn for each recipe, in the plan's order. */
  readonly boxesByArm: readonly number[];
  readonly households: number;
  readonly sets: number;
  readonly abandonedSets: number;
  readonly boxes: number;
  readonly recorded: number;
  readonly lost: number;
}

export interface DesignSoFar {
  /** Codes in the plan's order. */
  readonly arms: readonly string[];
  /** In the order of the plan's climate groups, those without a set included. */
  readonly groups: readonly GroupDesign[];
  readonly openedAt: Date;
  readonly ends: TrialEnds;
  /** Whether the trial takes no further draws. */
  readonly isOver: boolean;
}

const NOTHING_YET = { households: 0, sets: 0, abandonedSets: 0, boxes: 0, recorded: 0, lost: 0 };

/** Balance and progress of an opened trial by climate group, without any outcome by recipe; null for a draft. */
export async function designSoFar(
  tx: Transaction,
  trialId: AuthorizedTrialId,
  now: Date,
): Promise<DesignSoFar | null> {
  const trial = await findLeadTrial(tx, trialId);
  const { openedAt, ends, closedAt } = trial;
  if (!openedAt) return null;
  const arms = trial.arms.map(({ code }) => code);
  const bands = trial.grouping.map(({ code }) => code);
  const tallies = await readTallies(tx, { trialId, armCodes: arms, bands });
  const progress = new Map(
    (await progressByGroup(tx, trialId, closedAt)).map((group) => [group.band, group]),
  );
  const groups = bands.map((band): GroupDesign => {
    const regions = tallies.get(band)!;
    const tally = sumTallies([...regions.values()]);
    const { households, sets, abandonedSets, boxes, recorded, lost } = progress.get(band) ?? NOTHING_YET;
    const counts = { households, sets, abandonedSets, boxes, recorded, lost };
    return { band, tally, regions, boxesByArm: boxesByArm(tally, arms.length), ...counts };
  });
  return {
    arms,
    groups,
    openedAt,
    ends,
    isOver: closedAt !== null || (await takesNoMoreDraws(tx, trialId, ends, now)),
  };
}
