import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { type MeanDot, MeanIntervals } from "@/lib/ui/charts/mean-intervals";

const dot: MeanDot = { name: "Rye 1 : 1", mean: 2, lower: 1.234, upper: 2.766, reason: null };

function render(...dots: readonly MeanDot[]): string {
  return renderToStaticMarkup(<MeanIntervals dots={dots} level="95 %" />);
}

/** Where growth 0 and 4 lie, read from the grid. */
function scale(markup: string): (growth: number) => number {
  const lines = [...markup.matchAll(/<path d="M([\d.]+) 20V/g)].map(([, x]) => Number(x));
  expect(lines).toHaveLength(5);
  return (growth) => lines[0]! + (growth / 4) * (lines[4]! - lines[0]!);
}

describe("means with their intervals", () => {
  it("put dot and interval where the grid says they belong", () => {
    const markup = render(dot);
    const at = scale(markup);
    const [, x] = markup.match(/<circle cx="([\d.]+)"/)!;
    const [, from, to] = markup.match(/<path d="M([\d.]+) [\d.]+H([\d.]+)"/)!;
    expect(Number(x)).toBeCloseTo(at(2), 6);
    expect(Number(from)).toBeCloseTo(at(1.234), 6);
    expect(Number(to)).toBeCloseTo(at(2.766), 6);
  });

  it("end an interval that reaches past the scale at its edge, and still say its true end", () => {
    const markup = render({ ...dot, mean: 0.2, lower: -0.31, upper: 0.71 });
    const at = scale(markup);
    const [, from] = markup.match(/<path d="M([\d.]+) [\d.]+H/)!;
    expect(Number(from)).toBeCloseTo(at(0), 6);
    expect(markup).toMatch(/95 % interval −0\.31\sto\s0\.71/);
  });

  it("say that there is no interval rather than drawing one of no width", () => {
    const markup = render({ ...dot, lower: null, upper: null, reason: "too few growers" });
    expect(markup).toContain("Rye 1 : 1: mean 2.00, no interval.");
    expect(markup).not.toMatch(/<path d="M[\d.]+ [\d.]+H/);
  });

  it("draw no dot for a figure that is held back, and say why", () => {
    const markup = render({ name: "Rye 1 : 1", mean: null, lower: null, upper: null, reason: "held back" });
    expect(markup).not.toContain("<circle");
    expect(markup).toContain("Rye 1 : 1: held back.");
  });
});
