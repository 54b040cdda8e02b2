import type { DrawInputs, LedgerEntry } from "@/shared/schemas/draw";
import type { DrawHistory } from "./draw";
import { addToTally, type DrawTally, emptyTally } from "./tally";

/** What a draw leaves for later ones. */
export type EarlierDraw = Pick<LedgerEntry, "inputs" | "result" | "fetchAfterDays">;

/**
 * What a ledger's entries say to the next draw, gathered entry by entry in their order. An entry that returns an
 * abandoned allocation is remembered by its outing, and counts in nothing else.
 */
export class EarlierDraws {
  private readonly armIndex: ReadonlyMap<string, number>;
  private readonly byOuting = new Map<string, EarlierDraw>();
  private readonly tallies = new Map<string, DrawTally>();
  private readonly boxesByGroup = new Map<string, Map<string, number>>();
  private readonly metByHousehold = new Map<string, Map<string, number>>();

  /** @param armCodes the trial's arms in the plan's order. */
  constructor(armCodes: readonly string[]) {
    this.armIndex = new Map(armCodes.map((code, index) => [code, index]));
  }

  /** The entry drawn for an outing, returns included. */
  entryOf(outingId: string): EarlierDraw | undefined {
    return this.byOuting.get(outingId);
  }

  /** Boxes drawn for each arm in the climate group, as `drawnBefore` of the next inputs has them. */
  drawnBefore(climateGroup: string): ReadonlyMap<string, number> {
    return this.boxesByGroup.get(climateGroup) ?? new Map();
  }

  /** The history of a draw with these inputs. `returned` is null when no entry has the outing they name. */
  of(inputs: Pick<DrawInputs, "climateGroup" | "region" | "household" | "returns">): DrawHistory {
    const { climateGroup, region, household, returns } = inputs;
    return {
      group: this.tallies.get(climateGroup) ?? emptyTally(),
      region: this.tallies.get(regionKey(climateGroup, region)) ?? emptyTally(),
      metByHousehold: this.metByHousehold.get(household) ?? new Map(),
      returned: (returns === undefined ? undefined : this.byOuting.get(returns)) ?? null,
    };
  }

  /** Throws when the result holds an arm that isn't the trial's. */
  add(entry: EarlierDraw): void {
    const { climateGroup, region, household, returns, outingId } = entry.inputs;
    this.byOuting.set(outingId, entry);
    if (returns !== undefined) return;
    const armIndexes = entry.result.map(({ arm }) => this.armIndex.get(arm) ?? -1);
    for (const key of [climateGroup, regionKey(climateGroup, region)]) {
      this.tallies.set(
        key,
        addToTally(this.tallies.get(key) ?? emptyTally(), this.armIndex.size, armIndexes),
      );
    }
    for (const { arm } of entry.result) {
      countUp(this.boxesByGroup, climateGroup, arm);
      countUp(this.metByHousehold, household, arm);
    }
  }
}

/** Codes hold no space, so that no climate group can pass for another's region. */
function regionKey(climateGroup: string, region: string): string {
  return `${climateGroup} ${region}`;
}

function countUp(counts: Map<string, Map<string, number>>, key: string, arm: string): void {
  const ofKey = counts.get(key) ?? new Map<string, number>();
  ofKey.set(arm, (ofKey.get(arm) ?? 0) + 1);
  counts.set(key, ofKey);
}
