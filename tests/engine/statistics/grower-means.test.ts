import { describe, expect, it } from "vitest";
import { growerMeanInterval } from "@/lib/engine/statistics/grower-means";
import type { PoolRow } from "@/shared/schemas/pool";
import { tallyOf } from "./pool-simulation";
import { reference, relativelyClose } from "./reference";

function box(grower: string, outcome: number | null, status: PoolRow["status"] = "graded"): PoolRow {
  return { grower, outing: `${grower}-1`, band: "Cfb", arm: "A", outcome, status };
}

describe("growerMeanInterval", () => {
  // R: t.test over tapply(outcome, grower, mean), on unbalanced simulated trials with lost boxes.
  const cells = reference.trials.flatMap(({ rows, cells }, trial) =>
    cells.map((cell) => ({
      name: `trial ${trial + 1}, ${cell.band} × ${cell.arm}`,
      cell,
      rows: rows.filter((row) => row.band === cell.band && row.arm === cell.arm),
    })),
  );
  it.each(cells)("agrees with R's t.test over grower means: $name", ({ cell, rows }) => {
    const mean = growerMeanInterval(tallyOf(rows), 0.95);
    expect(mean).toMatchObject({ boxes: cell.boxes, outings: cell.outings, growers: cell.growers });
    expect(mean.estimate).toBeCloseTo(cell.estimate, 12);
    if (cell.lower === undefined) {
      expect(mean.lower).toBeNull();
      return;
    }
    expect(mean.df).toBe(cell.df);
    for (const key of ["se", "lower", "upper"] as const) {
      expect(relativelyClose(mean[key], cell[key]!, 1e-9)).toBe(true);
    }
  });

  it("counts a grower with many boxes as one", () => {
    const many = Array.from({ length: 50 }, () => box("a", 4));
    const mean = growerMeanInterval(tallyOf([...many, box("b", 0), box("c", 2)]), 0.95);
    expect(mean).toMatchObject({ estimate: 2, growers: 3, boxes: 52, df: 2 });
  });

  it("uses neither lost nor unmeasured boxes", () => {
    const kept = [box("a", 1), box("b", 3)];
    const mean = growerMeanInterval(tallyOf([...kept, box("c", 4, "lost"), box("d", null)]), 0.95);
    expect(mean).toEqual(growerMeanInterval(tallyOf(kept), 0.95));
  });

  it.each([
    ["no box", [], "NO_BOXES", null],
    ["one grower", [box("a", 1), box("a", 3)], "TOO_FEW_GROWERS", 2],
    ["growers all alike", [box("a", 3), box("b", 3), box("c", 3)], "NO_VARIATION", 3],
  ])("claims no interval from %s", (_, rows, reason, estimate) => {
    expect(growerMeanInterval(tallyOf(rows), 0.95)).toMatchObject({
      reason,
      estimate,
      lower: null,
      upper: null,
    });
  });

  it("warns of few growers", () => {
    const rows = Array.from({ length: 10 }, (_, g) => box(`g${g}`, g % 4));
    expect(growerMeanInterval(tallyOf(rows), 0.95).warnings).toEqual([]);
    expect(growerMeanInterval(tallyOf(rows.slice(1)), 0.95).warnings).toEqual(["FEW_GROWERS"]);
  });
});
