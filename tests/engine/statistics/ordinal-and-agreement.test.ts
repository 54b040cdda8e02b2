import { describe, expect, it } from "vitest";
import { seededSource } from "@/lib/engine/random/source";
import {
  type GradedUnit,
  kappa,
  krippendorffAlpha,
  ordinalAlphaInterval,
} from "@/lib/engine/statistics/agreement";
import { crossoverTail, crossoverTest } from "@/lib/engine/statistics/crossover";
import { fitCumulativeLogit } from "@/lib/engine/statistics/cumulative-logit";
import { interactionContrasts } from "@/lib/engine/statistics/interaction-contrasts";
import { intraclassCorrelations } from "@/lib/engine/statistics/intraclass";
import { logitInteraction } from "@/lib/engine/statistics/logit-interaction";
import { generalisedQuadraticForm } from "@/lib/engine/statistics/symmetric";
import { categoricalCases } from "./comparisons-reference";
import { relativelyClose } from "./reference";

const FLIPS = { seed: "flips", permutations: 499 };

describe("proportional odds", () => {
  const { temp, contact, rating, ...expected } = categoricalCases.wine;
  const design = [
    [0, 0],
    [0, 1],
    [1, 0],
    [1, 1],
  ];
  const row = temp.map((t, i) => 2 * t + contact[i]!);

  it("agree with ordinal::clm(rating ~ temp + contact, wine): 2.503102, 1.527798; −86.49192", () => {
    const fit = fitCumulativeLogit({ design, row, category: rating, categories: 5 });
    if (!fit.ok) throw new Error(fit.reason);
    expect(fit.logLikelihood).toBeCloseTo(expected.logLikelihood, 10);
    expect(fit.logLikelihood).toBeCloseTo(-86.49192337, 8);
    expect(fit.coefficients[0]).toBeCloseTo(2.503102008, 8);
    expect(fit.coefficients[1]).toBeCloseTo(1.527797658, 8);
    [...expected.thresholds, ...expected.coefficients].forEach((value, i) => {
      expect([...fit.thresholds, ...fit.coefficients][i]).toBeCloseTo(value, 7);
      fit.covariance[i]!.forEach((v, j) => {
        expect(v).toBeCloseTo(expected.covariance[i]![j]!, 7);
      });
    });
  });

  it("say when a row met only one end", () => {
    const separated = { design: [[0], [1]], row: [0, 0, 0, 1, 1], category: [0, 1, 0, 1, 1], categories: 2 };
    expect(fitCumulativeLogit(separated)).toEqual({ ok: false, reason: "SEPARATED" });
    const alike = { design: [[0], [1]], row: [0, 1], category: [0, 0], categories: 1 };
    expect(fitCumulativeLogit(alike)).toEqual({ ok: false, reason: "NO_VARIATION" });
  });

  it("test arm × band much as clm's likelihood ratio does where boxes are independent", () => {
    const { arm, band, growth, likelihoodRatio, df } = categoricalCases.logit;
    const test = logitInteraction({ arm, band, growth, grower: arm.map((_, i) => i) }, FLIPS);
    expect(test).toMatchObject({ df, reason: null });
    // Score and likelihood ratio statistics differ by terms that vanish with the number of boxes, here 900.
    expect(Math.abs(test.chiSquare! / likelihoodRatio - 1)).toBeLessThan(0.1);
  });

  it("bear a cell without any growth, and need two bands and enough growers", () => {
    const { arm, band, growth } = categoricalCases.logit;
    const grower = arm.map((_, i) => i % 40);
    const empty = growth.map((x, i) => (arm[i] === 1 && band[i] === 2 ? 0 : x));
    expect(logitInteraction({ arm, band, growth: empty, grower }, FLIPS).reason).toBeNull();
    expect(logitInteraction({ arm, band: band.map(() => 1), growth, grower }, FLIPS).reason).toBe("ONE_BAND");
    expect(logitInteraction({ arm, band, growth, grower: grower.map((g) => g % 4) }, FLIPS).reason).toBe(
      "TOO_FEW_GROWERS",
    );
  });
});

describe("arm × band on the scale of growth", () => {
  const { cells, estimates, variances, F, df1 } = categoricalCases.interaction;
  const contrasts = interactionContrasts(cells.map(({ a, b }) => ({ arm: a, band: b })));

  const formOf = (values: readonly number[]) => {
    const along = contrasts.map((l) => l.reduce((sum, x, c) => sum + x * values[c]!, 0));
    const covariance = contrasts.map((l) =>
      contrasts.map((m) => l.reduce((sum, x, c) => sum + x * m[c]! * variances[c]!, 0)),
    );
    return generalisedQuadraticForm(along, covariance);
  };

  it("spans anova's interaction, two cells missing (R: lm)", () => {
    const { value, rank } = formOf(estimates);
    expect(rank).toBe(df1);
    expect(contrasts.length).toBe(df1);
    expect(relativelyClose(value / rank, F, 1e-10)).toBe(true);
  });

  it("is blind to arms and bands that add up", () => {
    expect(formOf(cells.map(({ a, b }) => 0.7 * a - 2 * b)).value).toBeCloseTo(0, 12);
  });

  it("has none in a table that hangs together by single cells", () => {
    expect(
      interactionContrasts([
        { arm: 0, band: 0 },
        { arm: 1, band: 0 },
        { arm: 1, band: 1 },
      ]),
    ).toEqual([]);
  });
});

describe("the crossover test", () => {
  it("has Gail & Simon's critical values", () => {
    // Gail & Simon (1985), table 1, 5 %, two to ten groups; from memory, to two digits.
    const published = [2.71, 4.23, 5.43, 6.5, 7.48, 8.41, 9.29, 10.15, 10.99];
    published.forEach((c, i) => {
      expect(Math.abs(categoricalCases.crossover[i]! - c)).toBeLessThan(0.006);
    });
    // R's root of the same formula to full precision.
    categoricalCases.crossover.forEach((c, i) => {
      expect(crossoverTail(c, i + 2)).toBeCloseTo(0.05, 10);
    });
  });

  it("gives their example: four groups of a breast cancer trial, p .088", () => {
    // Gail & Simon (1985), table 2; differences in disease-free share and standard errors, from memory.
    const differences = [
      [0.163, 0.0788],
      [-0.114, 0.0689],
      [-0.047, 0.0614],
      [-0.151, 0.0547],
    ].map(([difference, se]) => ({ difference: difference!, se: se!, df: Infinity }));
    const test = crossoverTest(differences)!;
    expect(test.statistic).toBeCloseTo(4.28, 2);
    expect(test.p).toBeCloseTo(0.088, 3);
  });

  it("does not call differences of one sign a crossover, and needs two groups", () => {
    const same = [1, 2, 0.1].map((difference) => ({ difference, se: 0.1, df: 20 }));
    expect(crossoverTest(same)).toMatchObject({ statistic: 0, p: 1, groups: 3 });
    expect(crossoverTest(same.slice(1, 2))).toBeNull();
  });
});

describe("agreement of graders", () => {
  it("has the kappas of the table [88,10,2; 14,40,6; 18,10,12]", () => {
    const { table, unweighted, quadratic } = categoricalCases.kappa;
    // psych::cohen.kappa, and by hand .4915254237, .4736842105, .4545454545.
    expect(kappa(table, "unweighted")).toBeCloseTo(unweighted, 12);
    expect(kappa(table, "quadratic")).toBeCloseTo(quadratic, 12);
    expect(kappa(table, "linear")).toBeCloseTo(0.4736842105, 10);
    expect(
      kappa(
        [
          [3, 0],
          [0, 0],
        ],
        "quadratic",
      ),
    ).toBeNull();
  });

  // Krippendorff's data "C" (Computing Krippendorff's alpha-reliability, 2011): four observers, twelve units, classes
  // 1–5; alphas as irr::kripp.alpha prints them.
  const observers = [
    [1, 2, 3, 3, 2, 1, 4, 1, 2, null, null, null],
    [1, 2, 3, 3, 2, 2, 4, 1, 2, 5, null, 3],
    [null, 3, 3, 3, 2, 3, 4, 2, 2, 5, 1, null],
    [1, 2, 3, 3, 2, 4, 4, 1, 2, 5, 1, null],
  ];
  const units = observers[0]!.map((_, u): GradedUnit => {
    const grades = observers.map((row) => row[u]).filter((x) => x != null);
    return { cluster: `grower ${u % 6}`, grades: grades.map((x) => x! - 1) };
  });

  it.each([
    ["nominal", 0.7434210526],
    ["ordinal", 0.8153875038],
    ["interval", 0.8491071429],
  ] as const)("has Krippendorff's alpha of his data C, %s: %d", (metric, alpha) => {
    expect(krippendorffAlpha(units, 5, metric)).toBeCloseTo(alpha, 10);
  });

  it("brackets alpha by whole growers, the same for the same seed", () => {
    const options = { level: 0.95, resamples: 999 };
    const run = (seed: string) => ordinalAlphaInterval(units, 5, { ...options, source: seededSource(seed) });
    const { alpha, lower, upper, boxes, clusters } = run("a");
    expect(alpha).toBeCloseTo(0.8153875038, 10);
    // Unit 12 has a single grading.
    expect({ boxes, clusters }).toEqual({ boxes: 11, clusters: 6 });
    expect(lower!).toBeLessThan(alpha!);
    expect(upper!).toBeGreaterThan(alpha!);
    expect(run("a")).toEqual(run("a"));
    const few = ordinalAlphaInterval(units.slice(0, 2), 5, { ...options, source: seededSource("a") });
    expect(few).toMatchObject({ reason: "TOO_FEW_GROWERS", lower: null });
    expect(krippendorffAlpha([{ cluster: "g", grades: [2] }], 5, "ordinal")).toBeNull();
  });

  it("has the intraclass correlations of Shrout & Fleiss (1979): .17 .29 .71 .44 .62 .91", () => {
    const { ratings, values } = categoricalCases.icc;
    const icc = intraclassCorrelations(ratings)!;
    const published = [0.17, 0.29, 0.71, 0.44, 0.62, 0.91];
    [icc.icc11, icc.icc21, icc.icc31, icc.icc1k, icc.icc2k, icc.icc3k].forEach((x, i) => {
      expect(x).toBeCloseTo(values[i]!, 12);
      expect(Math.abs(x - published[i]!)).toBeLessThan(0.005);
    });
    expect(
      intraclassCorrelations([
        [1, 1],
        [1, 1],
      ]),
    ).toBeNull();
    expect(() => intraclassCorrelations([[1, 2], [3]])).toThrow(RangeError);
  });
});
