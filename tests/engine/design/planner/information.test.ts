import { describe, expect, it } from "vitest";
import { growerInformation } from "@/lib/engine/design/planner/grower-information";
import { ownDifferences } from "@/lib/engine/design/planner/grower-sets";
import { efficiencyBound, informationOf, pairVariances } from "@/lib/engine/design/planner/information";
import { repeatInformation, separabilityOf } from "@/lib/engine/design/planner/separability";
import { cases, dealt } from "./reference";

const { growerArm, residual, designs } = cases.variances;

describe("variances of differences", () => {
  // R: generalised least squares with the whole covariance matrix, sets as fixed effects, arms unequal in number.
  it.each(designs)("of $arms arms, $perGrower sets to a grower, are those of the whole matrix", (design) => {
    const { arms, sets, perGrower, plain, withGrowers } = design;
    const fixed = pairVariances(informationOf(sets, arms), arms)!;
    expect(fixed.mean).toBeCloseTo(plain.mean, 10);
    expect(fixed.worst).toBeCloseTo(plain.worst, 10);
    const variances = { growerArm, residual };
    const random = pairVariances(growerInformation(dealt(sets, perGrower), arms, variances), arms)!;
    expect(random.mean).toBeCloseTo(withGrowers.mean, 10);
    expect(random.worst).toBeCloseTo(withGrowers.worst, 10);
  });

  it("of complete sets are 2(σ²_ga/g + σ²_e/r)", () => {
    const sets = Array.from({ length: 30 }, () => [0, 1, 2, 3, 4]);
    const variances = { growerArm: 0.3, residual: 1.7 };
    const pairs = pairVariances(growerInformation(dealt(sets, 3), 5, variances), 5)!;
    expect(pairs.mean).toBeCloseTo(2 * (0.3 / 10 + 1.7 / 30), 12);
    expect(pairs.worst).toBeCloseTo(pairs.mean, 12);
  });

  it("of a contrast are those of the pair it names", () => {
    const { arms, sets } = designs[1]!;
    const pairs = pairVariances(informationOf(sets, arms), arms)!;
    const [i, j] = pairs.typicalPair;
    const weights = Array.from({ length: arms }, (_, arm) => Number(arm === i) - Number(arm === j));
    const variance = pairs.ofContrast(weights);
    expect(Math.abs(variance - pairs.mean)).toBeLessThanOrEqual(pairs.worst - pairs.mean + 1e-12);
    expect(pairs.solve(weights)[i]! - pairs.solve(weights)[j]!).toBeCloseTo(variance, 12);
  });

  it("are none when no chain of sets joins all arms", () => {
    const sets = [
      [0, 1],
      [1, 2],
      [3, 4],
    ];
    expect(pairVariances(informationOf(sets, 5), 5)).toBeNull();
    expect(pairVariances(informationOf([...sets, [2, 3]], 5), 5)).not.toBeNull();
  });
});

describe("the bound of efficiency", () => {
  it("is that of unequal replication where arms are used unequally", () => {
    // Large sets lose next to nothing, so only the replications 1 and 11 are left: harmonic 11/6 over mean 6.
    const sets = [[0, ...new Array<number>(11).fill(1)]];
    const bound = efficiencyBound(informationOf(sets, 2), [1, 11]);
    expect(bound.by).toBe("UNEQUAL_REPLICATION");
    expect(bound.value).toBeCloseTo(11 / 36, 12);
  });
});

describe("grower × arm and residual", () => {
  // R: Fisher information by whole matrices, solved.
  it.each(cases.growerArmErrors)(
    "are told apart as well as by whole matrices",
    ({ sets, growers, s, error }) => {
      const [grower, outing, liking, box] = s as [number, number, number, number];
      const deviations = { grower, outing, growerArm: liking, residual: box };
      const own = [sets];
      const repeats = repeatInformation({ planned: own, byItself: own, always: own }, growers, deviations);
      const found = separabilityOf(repeats, deviations);
      expect(found.error! * (liking ** 2 + box ** 2)).toBeCloseTo(error, 8);
      expect(found.growersMeetingAgain).toBe(1);
    },
  );

  it("can't be told apart when no one meets a recipe again, nor with one set each", () => {
    const deviations = { grower: 0.5, outing: 0.5, growerArm: 0.5, residual: 1 };
    for (const own of [
      [[[0, 1, 2]]],
      [
        [
          [0, 1, 2],
          [3, 4, 5],
        ],
      ],
    ]) {
      const repeats = repeatInformation({ planned: own, byItself: own, always: own }, 500, deviations);
      const found = separabilityOf(repeats, deviations);
      expect(found).toEqual({ growersMeetingAgain: 0, error: null, separable: false, shareNeeded: null });
    }
  });

  it("need a smaller share of recipes met again the more growers there are", () => {
    const deviations = { grower: 0.5, outing: 0.5, growerArm: 0.5, residual: 1 };
    const never = [
      [
        [0, 1, 2],
        [3, 4, 5],
      ],
    ];
    const always = [
      [
        [0, 1, 2],
        [0, 4, 5],
      ],
    ];
    const shares = [40, 80, 400].map((growers) => {
      const repeats = repeatInformation({ planned: never, byItself: never, always }, growers, deviations);
      return separabilityOf(repeats, deviations).shareNeeded!;
    });
    expect(shares[0]).toBeGreaterThan(shares[1]!);
    expect(shares[1]).toBeGreaterThan(shares[2]!);
    expect(shares[2]).toBeGreaterThan(0);
  });
});

describe("the growers' own differences", () => {
  it("are arms met less the groups that a grower's sets join", () => {
    expect(ownDifferences([[[0, 1, 2]]])).toBe(2);
    expect(
      ownDifferences([
        [
          [0, 1, 2],
          [3, 4, 5],
        ],
      ]),
    ).toBe(4);
    expect(
      ownDifferences([
        [
          [0, 1, 2],
          [2, 3, 4],
        ],
      ]),
    ).toBe(4);
    expect(
      ownDifferences([
        [
          [0, 1, 2],
          [0, 1, 3],
        ],
      ]),
    ).toBe(3);
    expect(ownDifferences([[[0, 0, 1]], [[0, 1, 2]]])).toBe(3);
  });
});
