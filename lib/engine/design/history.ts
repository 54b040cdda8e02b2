import type { DrawInputs, LedgerEntry, Placement } from "@/shared/schemas/draw";
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
  private readonly owedByOuting = new Map<string, readonly Placement[]>();
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

  /**
   * What comes back when the outing is given up: what it was itself to receive from an earlier one, whether or not it
   * had boxes and grains for all of that, and after it what its own draw added. So a set with fewer boxes or grains
   * in between never gets anybody another allocation. Positions count on, beyond the outing's boxes. None where
   * there was no draw for it.
   */
  owedAfter(outingId: string): readonly Placement[] {
    return this.owedByOuting.get(outingId) ?? [];
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
      returned: returns === undefined ? null : this.returnOf(returns),
    };
  }

  private returnOf(outingId: string): DrawHistory["returned"] {
    const entry = this.byOuting.get(outingId);
    if (entry === undefined) return null;
    return { result: this.owedAfter(outingId), fetchAfterDays: entry.fetchAfterDays };
  }

  /** Throws when the result holds an arm that isn't the trial's. */
  add(entry: EarlierDraw): void {
    const { climateGroup, region, household, returns, outingId } = entry.inputs;
    this.byOuting.set(outingId, entry);
    const owedBefore = returns === undefined ? [] : this.owedAfter(returns);
    this.owedByOuting.set(outingId, withAdded(owedBefore, entry.result));
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

/** What was owed, and after it the arms of the result that it doesn't hold, in the order of their boxes. */
function withAdded(owed: readonly Placement[], result: readonly Placement[]): readonly Placement[] {
  const unmatched = owed.map(({ arm }) => arm);
  const added = [...result]
    .sort((a, b) => a.position - b.position)
    .filter(({ arm }) => {
      const at = unmatched.indexOf(arm);
      if (at >= 0) unmatched.splice(at, 1);
      return at < 0;
    });
  return [...owed, ...added].map(({ arm }, at) => ({ position: at + 1, arm }));
}

function countUp(counts: Map<string, Map<string, number>>, key: string, arm: string): void {
  const ofKey = counts.get(key) ?? new Map<string, number>();
  ofKey.set(arm, (ofKey.get(arm) ?? 0) + 1);
  counts.set(key, ofKey);
}
