import { describe, expect, test } from "vitest";
import { EarlierDraws } from "@/lib/engine/design/history";
import { mostInformative } from "@/lib/engine/design/rule-2";
import { seededSource } from "@/lib/engine/random/source";
import type { DrawInputs, Placement } from "@/shared/schemas/draw";
import { someInputs } from "./draw-inputs";

const NONE_DRAWN = new Array<number>(12).fill(0);
const uuid = (n: number) => `018f3a5e-0000-7000-8000-${String(n).padStart(12, "0")}`;
const armsIn = (result: readonly Placement[]) => result.map(({ arm }) => arm).sort();

describe("giving up set after set", () => {
  test("never gets a household another allocation for the same boxes and grains", () => {
    const grainSets = [
      ["barley-pearl", "rye", "oats", "millet", "sorghum", "teff"],
      ["barley-pearl", "rye"],
      ["oats", "millet", "sorghum"],
    ];
    const random = seededSource("giving up set after set");
    for (let household = 1; household <= 20; household++) {
      const plain = someInputs({ drawnBefore: NONE_DRAWN, boxes: 4 });
      const earlier = new EarlierDraws(plain.arms.map(({ code }) => code));
      const seen = new Map<string, string[]>();
      let returns: string | undefined;
      for (let set = 1; set <= 30; set++) {
        const boxes = 2 + random.below(5);
        const which = random.below(3);
        const grainsAtHand = grainSets[which]!;
        const inputs: DrawInputs = { ...plain, boxes, grainsAtHand, outingId: uuid(set), returns };
        const drawn = mostInformative(inputs, random, earlier.of(inputs), {
          meetAgainShare: 0.2,
          fetchAfterDays: null,
        });
        if (!drawn.ok) throw new Error(drawn.reason);
        const { placements: result } = drawn;
        const key = `${boxes} ${which}`;
        expect(armsIn(result)).toEqual(seen.get(key) ?? armsIn(result));
        seen.set(key, armsIn(result));
        earlier.add({ inputs, result });
        returns = inputs.outingId;
      }
      expect(seen.size).toBeGreaterThan(8);
    }
  });

  test("owes the first allocation first and then what later draws added", () => {
    const plain = someInputs({ drawnBefore: NONE_DRAWN.slice(6), boxes: 3 });
    const earlier = new EarlierDraws(plain.arms.map(({ code }) => code));
    const add = (set: number, arms: readonly string[], returns?: number) =>
      earlier.add({
        inputs: { ...plain, outingId: uuid(set), returns: returns && uuid(returns) } as DrawInputs,
        result: arms.map((arm, at) => ({ position: at + 1, arm })),
      });
    add(1, ["arm-3", "arm-1", "arm-2"]);
    add(2, ["arm-1", "arm-3"], 1);
    add(3, ["arm-5", "arm-1", "arm-6"], 2);
    expect(earlier.owedAfter(uuid(3)).map(({ arm }) => arm)).toEqual([
      "arm-3",
      "arm-1",
      "arm-2",
      "arm-5",
      "arm-6",
    ]);
    expect(earlier.owedAfter(uuid(9))).toEqual([]);
  });
});
