import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { GrowthBars } from "@/lib/ui/charts/growth-bars";

function render(classes: readonly number[] | null, reason: string | null = null): string {
  return renderToStaticMarkup(<GrowthBars bars={[{ name: "Spelt 1 : 1", classes, reason }]} />);
}

/** The filled parts of the bar: class of growth → width. The frame around the bar has no fill. */
function widths(markup: string): Map<string, number> {
  const parts = markup.matchAll(
    /<rect x="[^"]+" y="21" width="([^"]+)" height="27" fill="var\(--growth-(\d)\)"/g,
  );
  return new Map([...parts].map(([, width, growth]) => [growth!, Number(width)]));
}

describe("bars of growth", () => {
  it("say every count aloud, also those too small to be drawn with their number", () => {
    const markup = render([0, 1, 5, 40, 54]);
    expect(markup).toMatch(
      /aria-label="[^"]* Spelt 1 : 1: 0 none, 1 specks, 5 patches, 40 much, 54 nearly all, of 100 boxes\."/,
    );
    expect(markup).not.toMatch(/<text[^>]*>1<\/text>/);
    expect(markup).toMatch(/<text[^>]*>54<\/text>/);
  });

  it("name the picture by its title", () => {
    const markup = render([1, 1, 1, 1, 1]);
    const [, title] = markup.match(/<figcaption[^>]*>([^<]+)<\/figcaption>/)!;
    expect(markup).toContain(`role="img" aria-label="${title}. Spelt`);
  });

  it("share the whole width by the counts, and draw nothing for a class without boxes", () => {
    const drawn = widths(render([10, 0, 30, 40, 20]));
    expect([...drawn.keys()]).toEqual(["0", "2", "3", "4"]);
    const total = [...drawn.values()].reduce((sum, width) => sum + width, 0);
    expect(drawn.get("0")! / total).toBeCloseTo(0.1, 10);
    expect(drawn.get("3")! / total).toBeCloseTo(0.4, 10);
  });

  it("give the reason in place of a bar that is held back", () => {
    const markup = render(null, "held back");
    expect(widths(markup).size).toBe(0);
    expect(markup).toContain("Spelt 1 : 1: held back.");
    expect(markup).toMatch(/<text[^>]*>held back<\/text>/);
  });

  it("explain each colour in words", () => {
    const markup = render([1, 1, 1, 1, 1]);
    for (const word of ["None", "Specks", "Patches", "Much", "Nearly all"]) expect(markup).toContain(word);
  });
});
