import { describe, expect, it } from "vitest";
import { designFigures } from "@/lib/engine/design/planner/design-figures";
import { growerInformation } from "@/lib/engine/design/planner/grower-information";
import {
  efficiencyOf,
  informationOf,
  pairVariances,
  replicationOf,
  type SetOfArms,
} from "@/lib/engine/design/planner/information";
import { optimisedSets } from "@/lib/engine/design/planner/optimised";
import { addToTally, emptyTally } from "@/lib/engine/design/tally";
import { seededSource } from "@/lib/engine/random/source";
import { dealt } from "./reference";

const deviations = { growerArm: 0.5, residual: 1 };
/** t at .975 on 29 degrees of freedom: 2.045, any table of Student's t. */
const T29 = 2.0452;

function tallyOf(sets: readonly SetOfArms[], arms: number) {
  return sets.reduce((tally, set) => addToTally(tally, arms, set), emptyTally());
}

describe("a running trial's design", () => {
  it("has the efficiency and replication of its draws", () => {
    const sets = [...optimisedSets(6, 3, 9, seededSource("running")), [0, 0, 1, 2, 3, 4, 5]];
    const found = designFigures(
      { group: "mild", arms: 6, tally: tallyOf(sets, 6), growersAtEnd: 20, setsAtEnd: 20 },
      deviations,
      0.95,
    );
    expect(found.replication).toEqual(replicationOf(sets, 6));
    expect(found.efficiency).toBeCloseTo(
      efficiencyOf(pairVariances(informationOf(sets, 6), 6), replicationOf(sets, 6)),
      12,
    );
    expect(found).toMatchObject({ sets: 10, boxes: 34, connected: true });
  });

  it("foresees the width that complete sets will have", () => {
    const tally = tallyOf(
      [
        [0, 1, 2],
        [2, 1, 0],
      ],
      3,
    );
    const group = { group: "mild", arms: 3, tally, growersAtEnd: 30, setsAtEnd: 90 };
    const { halfWidthAtEnd, worstHalfWidthAtEnd } = designFigures(group, deviations, 0.95);
    expect(halfWidthAtEnd).toBeCloseTo(T29 * Math.sqrt(2 * (0.25 / 30 + 1 / 90)), 4);
    expect(worstHalfWidthAtEnd).toBeCloseTo(halfWidthAtEnd!, 10);
  });

  it("foresees that of incomplete sets with no recipe met again", () => {
    const sets = optimisedSets(9, 3, 30, seededSource("end"));
    const exact = pairVariances(growerInformation(dealt(sets, 1), 9, { growerArm: 0.25, residual: 1 }), 9)!;
    const group = { group: "mild", arms: 9, tally: tallyOf(sets, 9), growersAtEnd: 30, setsAtEnd: 30 };
    const { halfWidthAtEnd, worstHalfWidthAtEnd } = designFigures(group, deviations, 0.95);
    expect(halfWidthAtEnd).toBeCloseTo(T29 * Math.sqrt(exact.mean), 3);
    expect(worstHalfWidthAtEnd).toBeCloseTo(T29 * Math.sqrt(exact.worst), 3);
  });

  it("names thin arms, and says when nothing joins all arms or nothing was drawn", () => {
    const sets = [...Array.from({ length: 6 }, () => [0, 1, 2]), [2, 3, 0]];
    const group = { group: "mild", arms: 5, growersAtEnd: 20, setsAtEnd: 40 };
    const found = designFigures({ ...group, tally: tallyOf(sets, 5) }, deviations, 0.95);
    expect(found).toMatchObject({
      thinArms: [3, 4],
      connected: false,
      efficiency: 0,
      halfWidthAtEnd: null,
    });
    const before = designFigures({ ...group, tally: emptyTally() }, deviations, 0.95);
    expect(before).toMatchObject({
      sets: 0,
      boxes: 0,
      thinArms: [],
      connected: false,
      efficiencyBound: null,
    });
  });
});
