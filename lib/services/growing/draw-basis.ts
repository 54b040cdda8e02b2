import type { Transaction } from "@/lib/data/client";
import { drawsOfHousehold, type HouseholdDraw, type LockedTrial } from "@/lib/data/draws";
import type { OwnOuting } from "@/lib/data/outings";
import type { DrawHistory } from "@/lib/engine/design/draw";
import { EarlierDraws } from "@/lib/engine/design/history";
import { boxesByArm, emptyTally, sumTallies } from "@/lib/engine/design/tally";
import { readAndKeepTallies, type TrialTallies } from "@/lib/services/draw-tallies";

/** What earlier draws of a trial say to the next one. */
export interface DrawBasis {
  readonly history: DrawHistory;
  /** Boxes drawn before for each arm in the climate group, in the plan's order. */
  readonly drawnBefore: readonly number[];
  /** Ledger id of the household's abandoned set whose recipes this one receives. */
  readonly returns: string | undefined;
  /** No more boxes than this have been drawn in the whole trial. */
  readonly drawnBoxesAtMost: number;
}

/** Reads what a draw for this outing rests on. The trial's row must be locked. */
export async function drawBasis(
  tx: Transaction,
  trial: LockedTrial,
  outing: Pick<OwnOuting, "enrolmentId" | "enrolment" | "region">,
  band: string,
): Promise<DrawBasis> {
  const armCodes = trial.arms.map(({ code }) => code);
  const bands = trial.grouping.map(({ code }) => code);
  const tallies = await readAndKeepTallies(tx, { trialId: trial.trialId, armCodes, bands });
  const inGroup = tallies.get(band)!;
  const group = sumTallies([...inGroup.values()]);
  const household = await drawsOfHousehold(tx, outing.enrolmentId);
  const returns = setToReturn(household)?.inputs.outingId;
  const { code: region } = outing.region;
  const ofHousehold = { climateGroup: band, region, household: outing.enrolment.pseudonym, returns };
  const { metByHousehold, returned } = earlierDraws(household, armCodes).of(ofHousehold);
  return {
    history: { group, region: inGroup.get(region) ?? emptyTally(), metByHousehold, returned },
    drawnBefore: boxesByArm(group, armCodes.length),
    returns,
    drawnBoxesAtMost: boxesAtMost(trial, tallies),
  };
}

/** The household's latest draw whose set was given up and whose recipes have not come back to it yet. */
export function setToReturn(draws: readonly HouseholdDraw[]): HouseholdDraw["entry"] | null {
  const cameBack = new Set(draws.map(({ entry }) => entry.inputs.returns));
  const open = draws.filter(
    ({ entry, abandonedAt }) => abandonedAt !== null && !cameBack.has(entry.inputs.outingId),
  );
  return open.at(-1)?.entry ?? null;
}

/** What a household's draws say to its later ones, as a ledger that holds them says it. */
export function earlierDraws(draws: readonly HouseholdDraw[], armCodes: readonly string[]): EarlierDraws {
  const earlier = new EarlierDraws(armCodes);
  for (const { entry } of draws) earlier.add(entry);
  return earlier;
}

/** Returns are in no count: each is taken for a set of the largest size. */
function boxesAtMost({ arms, drawCount, plan }: LockedTrial, tallies: TrialTallies): number {
  const all = sumTallies([...tallies.values()].flatMap((byRegion) => [...byRegion.values()]));
  const counted = boxesByArm(all, arms.length).reduce((sum, boxes) => sum + boxes, 0);
  return counted + (drawCount - all.draws) * plan.boxesPerSet.max;
}
