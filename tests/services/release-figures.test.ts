import { expect, it } from "vitest";
import { NO_EXTRAS } from "@/lib/engine/statistics/pool-extras";
import { jsonReport } from "@/lib/engine/statistics/pool-report";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { figuresText } from "@/lib/services/lead/release";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import type { PoolRow } from "@/shared/schemas/pool";

/** Invented: two sets of each of six growers. */
const rows: PoolRow[] = Array.from({ length: 48 }, (_, i) => {
  const [grower, set] = [i % 6, Math.floor(i / 6) % 2];
  return {
    grower: `g${grower}`,
    outing: `g${grower}-${set}`,
    band: "mild-wet",
    arm: set === 1 && i % 4 > 1 ? "b" : i % 2 === 0 ? "a" : "c",
    outcome: Math.min(4, ((i * 7) % 3) + 2 * set),
    status: "graded",
  };
});

it("a release's figures are those of the command, which isn't asked to fit again under other assumptions", () => {
  const pooled = (asked: boolean) =>
    poolBothWays({
      table: poolTable(rows),
      extras: NO_EXTRAS,
      options: { seed: "invented", sensitivity: asked, byGrower: asked, factors: new Map() },
      interim: null,
    }).result;
  const [asked, plain] = [pooled(true), pooled(false)];
  const { model } = asked.analysis!;
  const warnings = [...model.warnings, "FIXED_OUTING_GAP" as const];
  const warned = { ...asked, analysis: { ...asked.analysis!, model: { ...model, warnings } } };
  expect(jsonReport(warned)).toContain("FIXED_OUTING_GAP");
  for (const result of [asked, warned]) expect(figuresText(result)).toBe(jsonReport(plain));
});
