import { describe, expect, it } from "vitest";
import { simulateArrivals } from "@/lib/engine/design/planner/arrivals";
import { clusteredFit } from "@/lib/engine/design/planner/clustered-fit";
import { informationOf, pairVariances, type SetOfArms } from "@/lib/engine/design/planner/information";
import { optimisedSets } from "@/lib/engine/design/planner/optimised";
import { seededSource } from "@/lib/engine/random/source";

describe("the clustered test", () => {
  // Six growers' differences of two arms, averaged over their two sets; R: t.test(d) gives t = 2.2361, df 5.
  it("of complete sets is the one-sample t test over growers' differences", () => {
    const differences = [1, 2, 3, -1, 0, 1];
    const setsByGrower = differences.map(() => [
      [0, 1],
      [1, 0],
    ]);
    const pairs = pairVariances(informationOf(setsByGrower.flat(), 2), 2)!;
    const [better] = pairs.typicalPair;
    const outcomes = differences.flatMap((d) =>
      better === 0 ? [d + 0.5, 0, 0, d - 0.5] : [0, d + 0.5, d - 0.5, 0],
    );
    const judge = clusteredFit(setsByGrower, 2, pairs);
    const { estimate, se } = judge.fit(Float64Array.from(outcomes));
    expect(judge.df).toBe(5);
    expect(estimate).toBeCloseTo(1, 12);
    expect(estimate / se).toBeCloseTo(1 / (Math.sqrt(2) / Math.sqrt(6)), 10);
  });

  // Growers with one to four sets each, of unequal size, and likings: its size has to be what it says.
  it("rejects a true null about as often as it says, on unbalanced trials", () => {
    const random = seededSource("size of the clustered test");
    const smaller = optimisedSets(8, 3, 40, random);
    const larger = optimisedSets(8, 5, 35, random);
    const pool: SetOfArms[] = random.shuffle([...smaller, ...larger]);
    const setsByGrower: SetOfArms[][] = [];
    while (pool.length > 0) setsByGrower.push(pool.splice(0, 1 + random.below(4)));
    const arrivals = {
      setsByGrower,
      arms: 8,
      pairs: pairVariances(informationOf(setsByGrower.flat(), 8), 8)!,
      deviations: { grower: 0.5, growerArm: 0.8, outing: 0.5, residual: 1 },
      difference: 0,
      cleanTake: { baseShare: 0.3, difference: 0 },
      alpha: 0.05,
      runs: 3000,
    };
    const { growth, cleanTake } = simulateArrivals(arrivals, seededSource("null"));
    // Monte Carlo error .4 points; a test by growers whose sets differ fourfold may be a little off.
    expect(Math.abs(growth!.power - 0.05)).toBeLessThan(0.02);
    expect(Math.abs(cleanTake!.power - 0.05)).toBeLessThan(0.02);
  });
});
