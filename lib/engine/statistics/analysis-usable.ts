import type { UsableGrain } from "@/shared/schemas/pool-analysis";
import { pairContrasts } from "./analysis-contrasts";
import { familiesByBand } from "./analysis-family";
import { cellsIn, estimatedOf, NO_ESTIMATE } from "./analysis-figures";
import type { AnalysisPlan } from "./analysis-plan";
import type { PoolColumns } from "./columns";
import { cellMean } from "./mixed/contrasts";
import { fitMixedModel } from "./mixed/fit-mixed-model";
import type { PoolExtras } from "./pool-extras";
import { MINIMUM } from "./suppression";

const NO_BASE = { boxes: null, outings: null, growers: null };

/**
 * Usable grain per box set out, in grams, by the analysis' own model. A lost box counts 0, a box that came back
 * without being weighed is left out. So are the lost boxes of a set of which boxes came back and none was weighed:
 * had they not been lost they would not have been weighed either. A cell in which fewer boxes or households than
 * `MINIMUM` were weighed is left out whole, so that none of its grams reach any figure.
 */
export function usableGrain(columns: PoolColumns, extras: PoolExtras, plan: AnalysisPlan): UsableGrain {
  const outcome = gramsPerBoxSetOut(columns, extras);
  if (!outcome) return { cells: [], contrasts: [], reason: "NOT_MEASURED" };
  const result = fitMixedModel({ ...columns, outcome }, { random: plan.random });
  if (!result.ok) return { cells: [], contrasts: [], reason: result.reason };
  const { fit } = result;
  const fitted = new Map(fit.cells.map((cell) => [JSON.stringify([cell.band, cell.arm]), cell]));
  const pairs = pairContrasts(fit, familiesByBand(fit), { ...plan, margin: null });
  return {
    cells: cellsIn(columns).map(({ band, arm }) => {
      const own = fitted.get(JSON.stringify([band, arm]));
      if (!own) return { band, arm, ...NO_BASE, ...NO_ESTIMATE, reason: "NOT_MEASURED" };
      const { boxes, outings, growers } = own;
      const { level } = plan;
      const mean = estimatedOf(cellMean(fit, band, arm), { level, growers: fit.growers });
      return { band, arm, boxes, outings, growers, ...mean };
    }),
    contrasts: pairs.map(({ verdict: _, fixedOuting: __, shrunken: ___, ...one }) => one),
    reason: null,
  };
}

/** By row, NaN where left out; null where too few boxes of every cell were weighed. */
function gramsPerBoxSetOut(columns: PoolColumns, { usableMassG }: PoolExtras): Float64Array | null {
  if (!usableMassG) return null;
  const { labels, band, arm, grower, outing, lost } = columns;
  const cellOf = (row: number): number => band[row]! * labels.arm.length + arm[row]!;
  const cells = new Map<number, { boxes: number; growers: Set<number> }>();
  const cameBack = new Uint8Array(labels.outing.length);
  const wasWeighed = new Uint8Array(labels.outing.length);
  usableMassG.forEach((grams, row) => {
    if (lost[row] === 1) return;
    cameBack[outing[row]!] = 1;
    if (Number.isNaN(grams)) return;
    wasWeighed[outing[row]!] = 1;
    const own = cells.get(cellOf(row)) ?? { boxes: 0, growers: new Set<number>() };
    cells.set(cellOf(row), own);
    own.boxes++;
    if (own.growers.size < MINIMUM.households) own.growers.add(grower[row]!);
  });
  const ample = new Set<number>();
  for (const [cell, { boxes, growers }] of cells) {
    if (boxes >= MINIMUM.boxes && growers.size >= MINIMUM.households) ample.add(cell);
  }
  if (ample.size === 0) return null;
  return usableMassG.map((grams, row) => {
    if (!ample.has(cellOf(row))) return Number.NaN;
    if (lost[row] === 0) return grams;
    return cameBack[outing[row]!] === 1 && wasWeighed[outing[row]!] === 0 ? Number.NaN : 0;
  });
}
