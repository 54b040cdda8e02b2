import { expect, it } from "vitest";
import { poolColumns } from "@/lib/engine/statistics/pool-columns";
import { NO_EXTRAS, type PoolExtras } from "@/lib/engine/statistics/pool-extras";
import { poolTable } from "@/lib/engine/statistics/pool-table";
import { cutName } from "@/lib/services/pool-cut";
import { simulateTrial } from "@/tests/engine/statistics/simulated-trial";

const rows = simulateTrial({ growers: 6, arms: 2, growerArmSd: 0 }, "cut");
const numbers = (step: number) => Float64Array.from(rows, (_, row) => row * step);

function nameWith(extras: Partial<PoolExtras>): string {
  const options = { permutations: 19, sensitivity: true };
  return cutName(poolColumns(poolTable(rows), { ...NO_EXTRAS, ...extras }, options), null);
}

it("names a cut by its rows where nothing else is known, and anew by everything that is", () => {
  const { sha256 } = poolColumns(poolTable(rows), NO_EXTRAS, { permutations: 19 }).result.data;
  expect(nameWith({})).toBe(sha256);
  const others: Partial<PoolExtras>[] = [
    {},
    { usableMassG: numbers(1) },
    { usableMassG: numbers(2) },
    { fetchDay: numbers(1) },
    { fetchDay: numbers(1), usableMassG: numbers(1) },
    { season: { labels: ["2026-03 spring"], index: new Int32Array(rows.length) } },
    { season: { labels: ["2026-06 summer"], index: new Int32Array(rows.length) } },
    { warmth: { labels: ["2026-03 spring"], index: new Int32Array(rows.length) } },
    { reusedSpot: new Uint8Array(rows.length) },
    { masked: { row: Int32Array.of(0), grader: Int32Array.of(0), take: Int8Array.of(1) } },
  ];
  const names = others.map(nameWith);
  expect(new Set(names).size).toBe(names.length);
  expect(nameWith({ usableMassG: numbers(1) })).toBe(names[1]);
});
