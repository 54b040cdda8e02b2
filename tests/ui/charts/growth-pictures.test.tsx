import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { ChanceDots } from "@/lib/ui/charts/chance-dots";
import { GrowthTable } from "@/lib/ui/charts/growth-table";
import { MoistureCurve } from "@/lib/ui/charts/moisture-curve";

describe("twenty dots", () => {
  it("fill as many as the recipe has and leave the rest hollow, for each recipe", () => {
    const markup = renderToStaticMarkup(
      <ChanceDots
        rows={[
          { name: "Rye", dots: 13 },
          { name: "Spelt", dots: 7 },
        ]}
        none={["Oats"]}
      />,
    );
    const paths = [...markup.matchAll(/<path d="([^"]*)" fill="([^"]*)"/g)];
    const drawn = paths.map(([, path, fill]) => [fill, new Set(path!.match(/M[\d.]+ [\d.]+/g)).size]);
    expect(drawn).toEqual([
      ["var(--act)", 13],
      ["none", 7],
      ["var(--act)", 7],
      ["none", 13],
    ]);
    expect(markup).toContain("Rye is best in 13.");
    expect(markup).toContain("Next to no chance: Oats.");
  });
});

describe("the table of recipes by climate group", () => {
  it("shades by the nearest class of growth, with the number in it; no shade where there is none", () => {
    const cell = (mean: number | null) => ({
      mean,
      text: mean === null ? "–" : mean.toFixed(2),
      isBest: false,
    });
    const markup = renderToStaticMarkup(
      <GrowthTable
        caption="By group"
        corner="Recipe"
        columns={["a", "b", "c", "d"]}
        rows={[{ name: "Rye", cells: [cell(0.4), cell(1.6), cell(3.5), cell(null)] }]}
      />,
    );
    const cells = [...markup.matchAll(/<td[^>]*class="([^"]*)"[^>]*>([^<]*)<\/td>/g)];
    expect(cells.map(([, look, text]) => [look!.match(/growth-(\d)/)?.[1], text])).toEqual([
      ["0", "0.40"],
      ["2", "1.60"],
      ["4", "3.50"],
      [undefined, "–"],
    ]);
  });
});

describe("growth by moisture", () => {
  it("puts wetter to the right and more growth higher, in proportion", () => {
    const markup = renderToStaticMarkup(
      <MoistureCurve
        title="Rye"
        points={[
          { moisturePercent: 64, estimate: 1, lower: 0.5, upper: 1.5 },
          { moisturePercent: 52, estimate: 3, lower: 2.5, upper: 3.5 },
          { moisturePercent: 58, estimate: 2, lower: null, upper: null },
        ]}
      />,
    );
    const dots = [...markup.matchAll(/<circle cx="([\d.]+)" cy="([\d.]+)"/g)].map(([, x, y]) => [
      Number(x),
      Number(y),
    ]);
    const [dry, middle, wet] = dots;
    expect(middle![0]! - dry![0]!).toBeCloseTo(wet![0]! - middle![0]!, 9);
    expect(middle![1]! - dry![1]!).toBeCloseTo(wet![1]! - middle![1]!, 9);
    expect(wet![0]!).toBeGreaterThan(dry![0]!);
    expect(dry![1]!).toBeLessThan(wet![1]!);
    expect(markup.match(/stroke="currentColor"/g), "no interval where there is none").toHaveLength(2);
  });
});
