import { beforeEach, describe, expect, it } from "vitest";
import { drawOnce } from "@/lib/ui/components/drawn-once";
import { keptMarkup } from "@/lib/ui/kept-markup";

let drawn = 0;
beforeEach(() => {
  drawn = 0;
});

function Figure({ value }: { value: string }) {
  drawn++;
  return <p title={value}>{value}</p>;
}

describe("what is drawn once", () => {
  it("is not drawn again for the same data, and has its texts escaped", async () => {
    const first = await drawOnce("a trial", <Figure value={'3 < 4 & "more"'} />);
    const second = await drawOnce("a trial", <Figure value={'3 < 4 & "more"'} />);
    expect(drawn).toBe(1);
    expect(second).toEqual(first);
    expect(first.markup).toBe(
      '<p title="3 &lt; 4 &amp; &quot;more&quot;">3 &lt; 4 &amp; &quot;more&quot;</p>',
    );
    expect(keptMarkup().get(first.name)).toBe(first.markup);
  });

  it("is drawn anew for any other data, under a name of its own", async () => {
    const one = await drawOnce("one", <Figure value="1" />);
    const other = await drawOnce("other", <Figure value="2" />);
    expect(drawn).toBe(2);
    expect(other.name).not.toBe(one.name);
    expect([one.markup, other.markup]).toEqual(['<p title="1">1</p>', '<p title="2">2</p>']);
  });

  it("is kept for the last few only", async () => {
    const first = await drawOnce("the first of many", <Figure value="1" />);
    for (let other = 0; other < 200; other++) await drawOnce(`many ${other}`, <Figure value="2" />);
    expect(keptMarkup().entries().size).toBeLessThan(50);
    expect(keptMarkup().get(first.name)).toBeUndefined();
    const again = await drawOnce("the first of many", <Figure value="1" />);
    expect(again).toEqual(first);
    expect(drawn).toBe(202);
  });
});
