import type { Transaction } from "@/lib/data/client";
import { keepTallies, regionCodesOf, talliesOf } from "@/lib/data/draw-tally";
import { ledgerOf } from "@/lib/data/draws";
import { addToTally, type DrawTally, emptyTally } from "@/lib/engine/design/tally";

/** What is counted over a trial's draws, by climate group and within it by region code. */
export type TrialTallies = ReadonlyMap<string, ReadonlyMap<string, DrawTally>>;

interface CountedTrial {
  readonly trialId: string;
  /** In the plan's order. */
  readonly armCodes: readonly string[];
  readonly bands: readonly string[];
}

/**
 * The counts over a trial's draws, as they are kept; counted from the ledger where they aren't, as in a trial that
 * drew before counts were kept.
 */
export async function readTallies(tx: Transaction, trial: CountedTrial): Promise<TrialTallies> {
  return (await storedTallies(tx, trial)) ?? countLedger(tx, trial);
}

/** The same, kept for the next time where they weren't. The trial's row must be locked. */
export async function readAndKeepTallies(tx: Transaction, trial: CountedTrial): Promise<TrialTallies> {
  const stored = await storedTallies(tx, trial);
  if (stored) return stored;
  const counted = await countLedger(tx, trial);
  const rows = [...counted].flatMap(([band, byRegion]) =>
    [...byRegion].map(([region, tally]) => ({ band, region, ...tally })),
  );
  await keepTallies(tx, trial.trialId, rows);
  return counted;
}

/** Null when one is missing. */
async function storedTallies(
  tx: Transaction,
  { trialId, bands }: CountedTrial,
): Promise<TrialTallies | null> {
  const tallies = await emptyTallies(tx, trialId, bands);
  let missing = bands.length * (tallies.get(bands[0]!)?.size ?? 0);
  for (const { band, region, draws, blocks } of await talliesOf(tx, trialId)) {
    if (tallies.get(band)?.has(region)) missing--;
    tallies.get(band)?.set(region, { draws, blocks });
  }
  return missing === 0 ? tallies : null;
}

async function countLedger(
  tx: Transaction,
  { trialId, armCodes, bands }: CountedTrial,
): Promise<TrialTallies> {
  const tallies = await emptyTallies(tx, trialId, bands);
  const indexes = new Map(armCodes.map((code, index) => [code, index]));
  for (const { inputs, result } of await ledgerOf(tx, trialId)) {
    if (inputs.returns !== undefined) continue;
    const ofBand = tallies.get(inputs.climateGroup);
    const tally = ofBand?.get(inputs.region) ?? emptyTally();
    const arms = result.map(({ arm }) => indexes.get(arm) ?? -1);
    ofBand?.set(inputs.region, addToTally(tally, armCodes.length, arms));
  }
  return tallies;
}

async function emptyTallies(
  tx: Transaction,
  trialId: string,
  bands: readonly string[],
): Promise<Map<string, Map<string, DrawTally>>> {
  const regions = await regionCodesOf(tx, trialId);
  return new Map(bands.map((band) => [band, new Map(regions.map((region) => [region, emptyTally()]))]));
}

/** Boxes drawn for each arm, in the plan's order: a block of k boxes adds n_i Σ_j n_j = k n_i to arm i's row. */
export function boxesByArm(tally: DrawTally, armCount: number): number[] {
  const boxes = new Array<number>(armCount).fill(0);
  for (const [size, sums] of Object.entries(tally.blocks)) {
    for (let i = 0, at = 0; i < armCount; i++) {
      for (let j = i; j < armCount; j++, at++) {
        boxes[i]! += sums[at]! / Number(size);
        if (j !== i) boxes[j]! += sums[at]! / Number(size);
      }
    }
  }
  return boxes.map(Math.round);
}
