import type { Transaction } from "@/lib/data/client";
import { keepTallies, talliesOf } from "@/lib/data/draw-tally";
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
  return (await storedOrCounted(tx, trial)).tallies;
}

/** The same, kept for the next time where they weren't. The trial's row must be locked. */
export async function readAndKeepTallies(tx: Transaction, trial: CountedTrial): Promise<TrialTallies> {
  const { tallies, areStored } = await storedOrCounted(tx, trial);
  if (areStored) return tallies;
  const rows = [...tallies].flatMap(([band, byRegion]) =>
    [...byRegion].map(([region, tally]) => ({ band, region, ...tally })),
  );
  await keepTallies(tx, trial.trialId, rows);
  return tallies;
}

async function storedOrCounted(
  tx: Transaction,
  trial: CountedTrial,
): Promise<{ readonly tallies: TrialTallies; readonly areStored: boolean }> {
  const rows = await talliesOf(tx, trial.trialId, trial.bands);
  const tallies = new Map(trial.bands.map((band) => [band, new Map<string, DrawTally>()]));
  let areStored = true;
  for (const { band, region, draws, blocks } of rows) {
    if (draws === null) areStored = false;
    tallies.get(band)!.set(region, draws === null ? emptyTally() : { draws, blocks });
  }
  if (areStored) return { tallies, areStored };
  for (const byRegion of tallies.values()) {
    for (const region of byRegion.keys()) byRegion.set(region, emptyTally());
  }
  await countLedger(tx, trial, tallies);
  return { tallies, areStored };
}

/** Adds every draw of the ledger that is no return to the counts. */
async function countLedger(
  tx: Transaction,
  { trialId, armCodes }: CountedTrial,
  tallies: ReadonlyMap<string, Map<string, DrawTally>>,
): Promise<void> {
  const indexes = new Map(armCodes.map((code, index) => [code, index]));
  for (const { inputs, result } of await ledgerOf(tx, trialId)) {
    if (inputs.returns !== undefined) continue;
    const ofBand = tallies.get(inputs.climateGroup);
    const tally = ofBand?.get(inputs.region) ?? emptyTally();
    const arms = result.map(({ arm }) => indexes.get(arm) ?? -1);
    ofBand?.set(inputs.region, addToTally(tally, armCodes.length, arms));
  }
}
