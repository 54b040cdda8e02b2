import { describe, expect, it } from "vitest";
import { minimise } from "@/lib/engine/statistics/mixed/minimise";

const unit = [
  [1, 0],
  [0, 1],
];

describe("minimise", () => {
  it("follows Rosenbrock's valley (1960, Computer J. 3:175–184) to (1, 1)", () => {
    const valley = ([x = 0, y = 0]: readonly number[]) => ({
      value: 100 * (y - x * x) ** 2 + (1 - x) ** 2,
      slope: [-400 * x * (y - x * x) - 2 * (1 - x), 200 * (y - x * x)],
    });
    const { x, converged, evaluations } = minimise(valley, { x: [0, 2], curvature: unit }, 1e-16);
    expect(converged).toBe(true);
    expect(x[0]).toBeCloseTo(1, 7);
    expect(x[1]).toBeCloseTo(1, 7);
    expect(evaluations).toBeLessThan(100);
  });

  it("ends exactly on a bound and optimises the rest there", () => {
    // Lowest at (−1, 3) without the bound; on x = 0 at y = 2.5.
    const bowl = ([x = 0, y = 0]: readonly number[]) => ({
      value: (x + 1) ** 2 + (y - 3) ** 2 + (x + 1) * (y - 3),
      slope: [2 * (x + 1) + (y - 3), 2 * (y - 3) + (x + 1)],
    });
    const { x, converged } = minimise(bowl, { x: [5, 0], curvature: unit }, 1e-14);
    expect(converged).toBe(true);
    expect(x[0]).toBe(0);
    expect(x[1]).toBeCloseTo(2.5, 7);
  });

  it("leaves a bound when the slope points inwards, and steps around places without a value", () => {
    const logarithm = ([x = 0]: readonly number[]) =>
      x > 2 ? null : { value: x - 2 * Math.log(x + 0.5), slope: [1 - 2 / (x + 0.5)] };
    const { x } = minimise(logarithm, { x: [0], curvature: [[0.01]] }, 1e-16);
    expect(x[0]).toBeCloseTo(1.5, 7);
  });
});
