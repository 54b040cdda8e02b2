import { describe, expect, it } from "vitest";
import { balancedDesign } from "@/lib/engine/design/planner/balanced";
import { completeSets } from "@/lib/engine/design/planner/complete";
import { cyclicSets, initialSets } from "@/lib/engine/design/planner/cyclic";
import {
  efficiencyBound,
  efficiencyOf,
  informationOf,
  pairVariances,
  replicationOf,
  type SetOfArms,
} from "@/lib/engine/design/planner/information";
import { optimisedSets } from "@/lib/engine/design/planner/optimised";
import { resolvableSets } from "@/lib/engine/design/planner/resolvable";
import { seededSource } from "@/lib/engine/random/source";

function efficiency(sets: readonly SetOfArms[], arms: number): { e: number; bound: number } {
  const c = informationOf(sets, arms);
  const replication = replicationOf(sets, arms);
  return {
    e: efficiencyOf(pairVariances(c, arms), replication),
    bound: efficiencyBound(c, replication).value,
  };
}

function concurrences(sets: readonly SetOfArms[], arms: number): Set<number> {
  const together = new Map<string, number>();
  for (let i = 0; i < arms; i++) for (let j = 0; j < i; j++) together.set(`${j} ${i}`, 0);
  for (const set of sets) {
    for (const i of set)
      for (const j of set) if (j < i) together.set(`${j} ${i}`, together.get(`${j} ${i}`)! + 1);
  }
  return new Set(together.values());
}

describe("balanced incomplete designs", () => {
  const known = Array.from({ length: 22 }, (_, i) => i + 3).flatMap((arms) =>
    Array.from({ length: Math.min(12, arms - 1) - 1 }, (_, i) => ({ arms, boxes: i + 2 })).flatMap((size) => {
      const sets = balancedDesign(size.arms, size.boxes);
      return sets ? [{ ...size, sets }] : [];
    }),
  );

  // The definition: every arm equally often, every two arms in equally many sets, no arm twice in a set.
  it.each(known)("of $arms arms in sets of $boxes are balanced", ({ arms, boxes, sets }) => {
    expect(sets.every((set) => new Set(set).size === boxes && set.length === boxes)).toBe(true);
    expect(new Set(replicationOf(sets, arms)).size).toBe(1);
    expect(concurrences(sets, arms).size).toBe(1);
    // E = v(k − 1)/(k(v − 1)) (Yates 1936, Annals of Eugenics 7:121–140; from memory).
    const { e, bound } = efficiency(sets, arms);
    expect(e).toBeCloseTo((arms * (boxes - 1)) / (boxes * (arms - 1)), 12);
    expect(bound).toBeCloseTo(e, 12);
  });

  // The fewest sets by the necessary conditions vr = bk, λ(v − 1) = r(k − 1), b ≥ v, which these designs reach.
  it.each([
    [6, 3, 10],
    [7, 3, 7],
    [7, 4, 7],
    [8, 4, 14],
    [9, 3, 12],
    [9, 4, 18],
    [10, 4, 15],
    [11, 5, 11],
    [12, 3, 44],
    [12, 4, 33],
    [12, 6, 22],
    // Projective planes of order 3 and 4 and the affine plane of order 4 (from memory).
    [13, 4, 13],
    [21, 5, 21],
    [16, 4, 20],
  ])("of %i arms in sets of %i needs %i sets", (arms, boxes, sets) => {
    expect(balancedDesign(arms, boxes)).toHaveLength(sets);
  });

  // 15 arms in 21 sets of 5 fulfils the conditions and doesn't exist (Nandi 1945; from memory), nor do 22 in 22 of 7
  // (Bruck, Ryser & Chowla; from memory).
  it("claims none that is known not to exist", () => {
    expect(balancedDesign(15, 5)!.length).toBeGreaterThan(21);
    expect(balancedDesign(22, 7)!.length).toBeGreaterThan(22);
  });

  it("has none for whole sets or where we know none", () => {
    expect(balancedDesign(6, 6)).toBeNull();
    expect(balancedDesign(23, 9)).toBeNull();
  });
});

describe("cyclic designs", () => {
  // 12 arms in sets of 4 developed from (0, 1, 3, 7): E .8133802817, bound .8181818182 (John & Williams' tables).
  it("from (0, 1, 3, 7) has the published efficiency", () => {
    const sets = Array.from({ length: 12 }, (_, s) => [0, 1, 3, 7].map((arm) => (arm + s) % 12));
    const { e, bound } = efficiency(sets, 12);
    expect(e).toBeCloseTo(0.8133802817, 10);
    expect(bound).toBeCloseTo(0.8181818182, 10);
  });

  it("are found as good by the search, by its own circulant arithmetic", () => {
    expect(initialSets(12, 4, 1, seededSource("cyclic"))).toEqual([[0, 1, 3, 7]]);
    expect(efficiency(cyclicSets(12, 4, 12, seededSource("cyclic")), 12).e).toBeCloseTo(0.8133802817, 10);
    // With 7 arms in sets of 3 and 13 in 4 the best cyclic design is the projective plane.
    expect(efficiency(cyclicSets(7, 3, 7, seededSource("cyclic")), 7).e).toBeCloseTo(7 / 9, 12);
    expect(efficiency(cyclicSets(13, 4, 13, seededSource("cyclic")), 13).e).toBeCloseTo(13 / 16, 12);
  });
});

describe("resolvable designs", () => {
  it.each([
    [12, 3, 40],
    [24, 12, 10],
    [24, 2, 48],
    [9, 3, 12],
  ])("of %i arms in sets of %i hold each arm once in each replicate", (arms, boxes, sets) => {
    const design = resolvableSets(arms, boxes, sets, seededSource("alpha"));
    const perReplicate = arms / boxes;
    for (let from = 0; from < sets; from += perReplicate) {
      const replicate = design.slice(from, from + perReplicate).flat();
      expect(replicate.toSorted((a, b) => a - b)).toEqual([...Array(arms).keys()]);
    }
  });

  it("is refused where sets don't divide the arms", () => {
    expect(() => resolvableSets(10, 3, 10, seededSource("alpha"))).toThrow(RangeError);
  });
});

describe("optimised designs", () => {
  it.each([
    [7, 3, 7],
    [13, 4, 13],
    [6, 3, 10],
  ])("of %i arms in %i boxes find the balanced design where there is one of %i sets", (arms, boxes, sets) => {
    const { e, bound } = efficiency(optimisedSets(arms, boxes, sets, seededSource("optimised")), arms);
    expect(e / bound).toBeGreaterThan(0.985);
  });

  // The cyclic design's published efficiency is a floor for a search over all designs of that size.
  it("of 12 arms in 12 sets of 4 is no worse than the published cyclic one", () => {
    const { e, bound } = efficiency(optimisedSets(12, 4, 12, seededSource("optimised")), 12);
    expect(e).toBeGreaterThan(0.8133802817 - 1e-9);
    expect(e).toBeLessThanOrEqual(bound + 1e-12);
  });

  it("uses arms as evenly as their number permits and none twice in a set", () => {
    const sets = optimisedSets(11, 4, 17, seededSource("even"));
    const replication = replicationOf(sets, 11);
    expect(Math.max(...replication) - Math.min(...replication)).toBeLessThanOrEqual(1);
    expect(sets.every((set) => new Set(set).size === 4)).toBe(true);
  });

  it("gives the same sets for the same seed", () => {
    const make = () => optimisedSets(9, 4, 20, seededSource("again"));
    expect(make()).toEqual(make());
  });
});

describe("complete sets", () => {
  it("hold every arm, and what is left over evenly", () => {
    const sets = completeSets(5, 12, 10, seededSource("complete"));
    for (const set of sets) {
      const counts = replicationOf([set], 5);
      expect(Math.min(...counts)).toBe(2);
      expect(Math.max(...counts)).toBe(3);
    }
    expect(new Set(replicationOf(sets, 5))).toEqual(new Set([24]));
    expect(efficiency(completeSets(6, 6, 4, seededSource("complete")), 6).e).toBeCloseTo(1, 12);
  });
});
