import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { FigureTable } from "@/lib/ui/results/figure-table";

const markup = renderToStaticMarkup(
  <FigureTable
    caption={`Means of "A" & <b>'s</b>`}
    columns={[
      { key: "name", label: "Recipe <1>" },
      { key: "mean", label: "Mean", numeric: true },
      { key: "verdict", label: "Verdict" },
    ]}
    rows={[
      {
        name: "<script>alert(1)</script>",
        mean: { figure: "+1.0", under: "<i>0 to 2</i>" },
        verdict: "a & b",
      },
      { name: "Rye", mean: 2, verdict: "undecided" },
    ]}
  />,
);

describe("a table of figures", () => {
  it("lets no text of it become markup", () => {
    expect(markup).not.toMatch(/<script|<i>|Recipe <1>|<b>'s/);
    expect(markup).toContain("&lt;script&gt;alert(1)&lt;/script&gt;");
    expect(markup).toContain("Means of &quot;A&quot; &amp; &lt;b&gt;&#x27;s&lt;/b&gt;");
    expect(markup).toContain("<small>&lt;i&gt;0 to 2&lt;/i&gt;</small>");
    expect(markup).toContain("a &amp; b");
  });

  it("names every column and every row, figures apart from words", () => {
    expect(markup.match(/<th scope="col"/g)).toHaveLength(3);
    expect(markup.match(/<th scope="row"/g)).toHaveLength(2);
    expect(markup).toContain('<th scope="row">Rye</th><td>2</td><td class="t">undecided</td>');
  });
});
