import { describe, expect, test } from "vitest";
import { leastDrawnFirst } from "@/lib/engine/design/rule-1";
import { drawSource, seededSource } from "@/lib/engine/random/source";
import { type DrawInputs, drawInputsSchema } from "@/shared/schemas/draw";
import reference from "../../fixtures/reference/random/draw-1.json";
import { chiSquareOfEqualCells } from "../random/chi-square";
import { armsOf, someInputs, timesTaken } from "./draw-inputs";

describe("rule grainlot-draw/1 never changes", () => {
  // Frozen results of an independent implementation: fixtures/reference/random/generate.py.
  test.each(reference.entries)("draw $number comes out as frozen", (entry) => {
    const inputs = drawInputsSchema.parse(entry.inputs);
    const random = drawSource({
      secretHex: reference.secretHex,
      trialId: reference.trialId,
      drawNumber: entry.number,
    });
    expect(leastDrawnFirst(inputs, random)).toEqual({ ok: true, placements: entry.result });
  });
});

describe("which arms are taken", () => {
  test("arms repeat only when boxes outnumber them, and then as evenly as can be", () => {
    for (let boxes = 2; boxes <= 12; boxes++) {
      for (const arms of [2, 3, 4, 6, 12]) {
        const inputs = someInputs({ drawnBefore: new Array(arms).fill(0), boxes });
        const taken = armsOf(leastDrawnFirst(inputs, seededSource(`${boxes} of ${arms}`)));
        const times = [...timesTaken(taken).values()];
        expect(taken).toHaveLength(boxes);
        expect(times).toHaveLength(Math.min(boxes, arms));
        expect(Math.max(...times)).toBe(Math.ceil(boxes / arms));
        expect(Math.min(...times)).toBe(Math.max(1, Math.floor(boxes / arms)));
      }
    }
  });

  test("the least drawn come first", () => {
    const inputs = someInputs({ drawnBefore: [5, 2, 9, 3, 2, 7], boxes: 3 });
    for (let i = 0; i < 50; i++) {
      expect(armsOf(leastDrawnFirst(inputs, seededSource(`${i}`))).sort()).toEqual([
        "arm-2",
        "arm-4",
        "arm-5",
      ]);
    }
  });

  test("boxes beyond a whole round go to the least drawn", () => {
    const inputs = someInputs({ drawnBefore: [4, 1, 4, 2], boxes: 10 });
    const times = timesTaken(armsOf(leastDrawnFirst(inputs, seededSource("ten"))));
    expect(Object.fromEntries(times)).toEqual({ "arm-1": 2, "arm-2": 3, "arm-3": 2, "arm-4": 3 });
  });

  test("only arms whose grain is at hand are taken, though others were drawn less", () => {
    const inputs = someInputs({
      drawnBefore: [0, 0, 9, 9, 0, 0],
      boxes: 4,
      grainsAtHand: ["rye", "wild-rice"],
    });
    expect(armsOf(leastDrawnFirst(inputs, seededSource("rye"))).sort()).toEqual([
      "arm-3",
      "arm-3",
      "arm-4",
      "arm-4",
    ]);
  });

  test("with all grains at hand no two arms of a group are ever more than one box apart", () => {
    const random = seededSource("arrivals");
    for (const arms of [2, 3, 5, 6, 12, 24]) {
      const drawnBefore = new Array<number>(arms).fill(0);
      for (let outing = 1; outing <= 200; outing++) {
        const inputs = someInputs({ drawnBefore, outing, boxes: 2 + random.below(11) });
        for (const arm of armsOf(leastDrawnFirst(inputs, random)))
          drawnBefore[Number(arm.slice(4)) - 1]! += 1;
        expect(Math.max(...drawnBefore) - Math.min(...drawnBefore)).toBeLessThanOrEqual(1);
      }
    }
  });
});

describe("what a draw depends on", () => {
  test("same inputs and same source, same draw; another draw number, another draw", () => {
    const inputs = someInputs({ drawnBefore: new Array(12).fill(0), boxes: 12 });
    const key = { secretHex: "5a".repeat(32), trialId: "t", drawNumber: 1 };
    const first = leastDrawnFirst(inputs, drawSource(key));
    expect(leastDrawnFirst(structuredClone(inputs), drawSource(key))).toEqual(first);
    expect(leastDrawnFirst(inputs, drawSource({ ...key, drawNumber: 2 }))).not.toEqual(first);
  });

  test("relabelled arms and grains give the relabelled result", () => {
    const random = seededSource("labels");
    for (let i = 0; i < 200; i++) {
      const counts = Array.from({ length: 2 + random.below(10) }, () => random.below(3));
      const inputs = someInputs({ drawnBefore: counts, boxes: 2 + random.below(11) });
      const newNames = random.shuffle(inputs.arms.map((_, j) => `z${j}`));
      const newName = new Map(inputs.arms.map((arm, j) => [arm.code, newNames[j]!]));
      const relabelled: DrawInputs = {
        ...inputs,
        grainsAtHand: inputs.grainsAtHand.map((grain) => `g-${grain}`),
        arms: inputs.arms.map((arm) => ({
          ...arm,
          code: newName.get(arm.code)!,
          grain: `g-${arm.grain}`,
        })),
      };
      expect(armsOf(leastDrawnFirst(relabelled, seededSource(`${i}`)))).toEqual(
        armsOf(leastDrawnFirst(inputs, seededSource(`${i}`))).map((arm) => newName.get(arm)),
      );
    }
  });

  test("household, outing, region and time move nothing", () => {
    const inputs = someInputs({ drawnBefore: [0, 0, 1, 1], boxes: 3 });
    const other = {
      ...inputs,
      outingId: "018f3a5e-0000-7000-8000-0000000000ee",
      household: "h-9",
      region: "south",
      timeHash: "f".repeat(64),
    };
    expect(leastDrawnFirst(other, seededSource("s"))).toEqual(leastDrawnFirst(inputs, seededSource("s")));
  });
});

describe("chance", () => {
  // Upper critical values at 0.001: NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.4.
  test("every three of six equal arms are equally likely: 100,000 draws, 19 df, critical value 43.820", () => {
    const inputs = someInputs({ drawnBefore: new Array(6).fill(2), boxes: 3 });
    const random = seededSource("three of six");
    const subsets = new Map<string, number>();
    const atFirstPlace = new Map<string, number>();
    for (let i = 0; i < 100_000; i++) {
      const arms = armsOf(leastDrawnFirst(inputs, random));
      atFirstPlace.set(arms[0]!, (atFirstPlace.get(arms[0]!) ?? 0) + 1);
      const subset = arms.sort().join();
      subsets.set(subset, (subsets.get(subset) ?? 0) + 1);
    }
    expect(subsets.size).toBe(20);
    expect(chiSquareOfEqualCells([...subsets.values()])).toBeLessThan(43.82);
    // Place in the set is by chance too: 5 df, critical value 20.515.
    expect(chiSquareOfEqualCells([...atFirstPlace.values()])).toBeLessThan(20.515);
  });

  test("an arm that is sure to be taken may stand anywhere: 100,000 draws, 3 df, critical value 16.266", () => {
    const inputs = someInputs({ drawnBefore: [0, 3, 3, 3, 3, 3], boxes: 4 });
    const random = seededSource("place of the sure arm");
    const counts = [0, 0, 0, 0];
    for (let i = 0; i < 100_000; i++) counts[armsOf(leastDrawnFirst(inputs, random)).indexOf("arm-1")]! += 1;
    expect(counts.reduce((sum, count) => sum + count, 0)).toBe(100_000);
    expect(chiSquareOfEqualCells(counts)).toBeLessThan(16.266);
  });
});
