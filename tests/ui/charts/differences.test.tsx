import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { DifferenceIntervals } from "@/lib/ui/charts/difference-intervals";
import { differenceScale } from "@/lib/ui/charts/difference-scale";
import { GrowerSquares } from "@/lib/ui/charts/grower-squares";

describe("a scale for differences", () => {
  it("holds 0 and every value between round ticks a step apart", () => {
    for (const values of [[0.3, 1.9], [-2.4, -0.1], [-0.02, 0.05], [-7, 12], [0]]) {
      const { low, high, ticks, at } = differenceScale(values);
      expect(low).toBeLessThanOrEqual(Math.min(0, ...values));
      expect(high).toBeGreaterThanOrEqual(Math.max(0, ...values));
      expect(ticks.some((tick) => Math.abs(tick) < 1e-9)).toBe(true);
      expect(ticks.length).toBeGreaterThanOrEqual(2);
      expect(ticks.length).toBeLessThanOrEqual(8);
      expect(at(low)).toBe(0);
      expect(at(high)).toBe(1);
      expect(at((low + high) / 2)).toBeCloseTo(0.5, 12);
    }
  });
});

/** Where tick values lie, read from the drawn axis. */
function axisOf(markup: string): (value: number) => number {
  const marks = [
    ...markup.matchAll(/<path d="M([\d.]+) \d+V[\d.]+"[^>]*><\/path><text[^>]*>([^<]+)<\/text>/g),
  ];
  const ticks = marks.map(([, x, label]) => ({ x: Number(x), value: Number(label!.replace("−", "-")) }));
  const [first, last] = [ticks[0]!, ticks.at(-1)!];
  return (value) => first.x + ((value - first.value) / (last.value - first.value)) * (last.x - first.x);
}

describe("differences with their intervals", () => {
  const markup = renderToStaticMarkup(
    <DifferenceIntervals
      title="Less growth than rye"
      rows={[{ name: "Spelt", difference: 0.8, lower: -0.25, upper: 1.85 }]}
      margin={0.5}
    />,
  );

  it("put dot, interval and the margin's shade where the axis says they belong", () => {
    const at = axisOf(markup);
    const [, dot] = markup.match(/<circle cx="([\d.]+)"/)!;
    const [, from, to] = markup.match(/<path d="M([\d.]+) [\d.]+H([\d.]+)"/)!;
    const [, left, width] = markup.match(/<rect x="([\d.]+)" y="0" width="([\d.]+)"/)!;
    expect(Number(dot)).toBeCloseTo(at(0.8), 6);
    expect([Number(from), Number(to)]).toEqual([expect.closeTo(at(-0.25), 6), expect.closeTo(at(1.85), 6)]);
    expect(Number(left)).toBeCloseTo(at(-0.5), 6);
    expect(Number(left) + Number(width)).toBeCloseTo(at(0.5), 6);
  });

  it("say their figures to who can't see them", () => {
    expect(markup).toMatch(/Spelt: 0\.80, −0\.25\sto\s1\.85/);
  });
});

describe("growers as squares", () => {
  const markup = renderToStaticMarkup(
    <GrowerSquares
      title="Rye less spelt"
      squares={[
        { grower: "AAA", difference: -1, weight: 0.05 },
        { grower: "BBB", difference: 1.5, weight: 0.2 },
      ]}
      pooled={{ difference: 0.9, lower: 0.2, upper: 1.6 }}
    />,
  );

  it("have areas as their weights and stand at their differences; the diamond spans the interval", () => {
    const at = axisOf(markup);
    const squares = [...markup.matchAll(/<rect x="([\d.]+)" y="[\d.]+" width="([\d.]+)" height="([\d.]+)"/g)];
    const [small, large] = squares.map(([, x, width, height]) => ({
      middle: Number(x) + Number(width) / 2,
      area: Number(width) * Number(height),
    }));
    expect(large!.area / small!.area).toBeCloseTo(4, 6);
    expect(small!.middle).toBeCloseTo(at(-1), 6);
    expect(large!.middle).toBeCloseTo(at(1.5), 6);
    const [, from, middle, to] = markup.match(/d="M([\d.]+) [\d.]+L([\d.]+) [\d.]+L([\d.]+) /)!;
    expect([from, middle, to].map(Number)).toEqual(
      [0.2, 0.9, 1.6].map((value) => expect.closeTo(at(value), 6)),
    );
  });
});
