import { canonicalJson } from "@/lib/engine/random/hash";
import { byCodeUnit } from "@/lib/engine/statistics/grouping";
import type { PoolRow } from "@/shared/schemas/pool";

/** Rows in their canonical order, with the text that names them. */
export interface CanonicalRows {
  readonly rows: readonly PoolRow[];
  readonly text: string;
}

/**
 * The rows as text that equal data always share: one line of canonical JSON (RFC 8785) per box with the members
 * arm, band, box, cleanTake, grower, outcome, outing, region, status (null where unknown; a lost box's outcome
 * and clean take are null), lines in code-unit order, each ended by a line feed. A row's place in the input does
 * not matter; how often equal rows occur does. Throws on an outcome that is not finite.
 */
export function canonicalRows(rows: readonly PoolRow[]): CanonicalRows {
  const lines = rows.map((given) => {
    const row = canonicalRow(given);
    return { row, line: `${canonicalJson(row)}\n` };
  });
  lines.sort((a, b) => byCodeUnit(a.line, b.line));
  return { rows: lines.map(({ row }) => row), text: lines.map(({ line }) => line).join("") };
}

function canonicalRow(row: PoolRow): Required<PoolRow> {
  const graded = row.status === "graded";
  return {
    arm: row.arm,
    band: row.band,
    box: row.box ?? null,
    cleanTake: graded ? (row.cleanTake ?? null) : null,
    grower: row.grower,
    outcome: graded ? row.outcome : null,
    outing: row.outing,
    region: row.region ?? null,
    status: row.status,
  };
}
