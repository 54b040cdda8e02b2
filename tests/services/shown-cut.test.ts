import { describe, expect, it } from "vitest";
import type { BoxColumn, SetColumn, StoredBoxes, StoredCut } from "@/lib/data/pool-boxes";
import { poolDataOf } from "@/lib/services/pool-data";
import { publishableCut } from "@/lib/services/shown-cut";

type Line = Record<BoxColumn | SetColumn, string>;

const WARM_DAYS = [1, 2, 3, 4, 5].map((day) => `2026-09-0${day},18.0,26.0,`).join(";");

function line(n: number, more: Partial<Line> = {}): Line {
  return {
    ...{ grower: `g${n}`, outing: `o${n}`, band: "mild-wet", region: "coast", arm: "arm-1", box: `b${n}` },
    ...{ lost: "0", take: "3", clean: "1", grains: "millet spelt", days: "5", cooked: "", usable: "" },
    ...{ stood: "2026-09-01 43.4", weather: "", reused: "0" },
    ...more,
  };
}

/** Every line a set of one box. */
function cutOf(lines: readonly Line[], looks: StoredCut["looks"] = []): StoredCut {
  const columns = Object.keys(line(0)) as (keyof Line)[];
  const column = (name: keyof Line) => lines.map((own) => own[name]).join("\n");
  const boxes = Object.fromEntries(columns.map((name) => [name, column(name)])) as StoredBoxes;
  return { boxes: { ...boxes, sizes: lines.map(() => "1").join("\n") }, looks };
}

const shown = [
  ...Array.from({ length: 5 }, (_, n) => line(n)),
  line(5, { lost: "1", take: "", clean: "-1" }),
  line(6, { reused: "1", usable: "420.5", weather: WARM_DAYS, cooked: "cooked-as-drawn" }),
];
const looks = [{ outing: "o6", box: "b6", grader: "h1", take: 2 }];

describe("the boxes that published figures may rest on", () => {
  it("are all of them while nothing was shown, and where nothing changed", () => {
    const cut = cutOf(shown, looks);
    expect(publishableCut(cut, [])).toBe(cut);
    expect(publishableCut(cut, [JSON.parse(JSON.stringify(cut)) as StoredCut])).toBe(cut);
  });

  it("stay as they were, to the letter, when one household adds a box and another corrects one", () => {
    const before = cutOf(shown, looks);
    const corrected = [line(0, { take: "0", clean: "0" }), ...shown.slice(1), line(7)];
    const kept = publishableCut(cutOf(corrected, looks), [before]);
    expect(kept).toEqual(before);
  });

  it("take in what five households add, looks too, and not what one weighed or noted", () => {
    const before = cutOf(shown, looks);
    const newer = Array.from({ length: 5 }, (_, i) =>
      line(10 + i, i === 0 ? { usable: "300", weather: WARM_DAYS } : {}),
    );
    const kept = publishableCut(cutOf([...shown, ...newer], looks), [before]);
    const plain = newer.map((own) => ({ ...own, usable: "" }));
    expect(kept.looks).toEqual(looks);
    const { weather: _, ...rest } = kept.boxes;
    const { weather: __, ...expected } = cutOf([...shown, ...plain]).boxes;
    expect(rest).toEqual(expected);
  });

  it("are the same whether what a set's boxes share is said once or for each of them", () => {
    const once = (own: Pick<StoredBoxes, "grower" | "outing">): StoredCut => ({
      boxes: {
        ...{ ...own, sizes: "2\n1", band: "mild-wet\nmild-wet", region: "coast\ncoast" },
        ...{
          grains: "millet\nspelt",
          stood: "2026-09-01 43.4\n2026-09-02 43.4",
          weather: "\n",
          reused: "0\n1",
        },
        ...{ arm: "arm-1\narm-1\narm-1", box: "b1\nb2\nb1", lost: "0\n0\n0", take: "3\n2\n1" },
        ...{ clean: "1\n0\n-1", days: "5\n5\n", cooked: "\n\n", usable: "\n\n" },
      },
      looks: [],
    });
    const now = once({ grower: "g1\ng2", outing: "o1\no2" });
    const { sizes: _, ...each } = now.boxes;
    const twice = (column: string | null) => column!.replace(/^(.*)\n/, "$1\n$1\n");
    const shared: readonly SetColumn[] = [
      ...(["grower", "outing", "band", "region"] as const),
      ...(["grains", "stood", "weather", "reused"] as const),
    ];
    for (const column of shared) each[column] = twice(each[column]);
    const before = { boxes: each, looks: [] };
    expect(publishableCut(now, [before])).toBe(now);
    expect(poolDataOf(before, new Map())).toEqual(poolDataOf(now, new Map()));
    const corrected = { ...now, boxes: { ...now.boxes, take: "4\n2\n1" } };
    expect(publishableCut(corrected, [before])).toEqual(now);
  });
});
