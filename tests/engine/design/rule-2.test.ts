import { describe, expect, test } from "vitest";
import type { DrawDesign, DrawHistory } from "@/lib/engine/design/draw";
import { EarlierDraws } from "@/lib/engine/design/history";
import { connectedParts } from "@/lib/engine/design/information";
import { mostInformative } from "@/lib/engine/design/rule-2";
import { addToTally, type DrawTally, emptyTally } from "@/lib/engine/design/tally";
import { drawSource, type RandomSource, seededSource } from "@/lib/engine/random/source";
import type { DrawInputs, Placement } from "@/shared/schemas/draw";
import frozen from "../../fixtures/reference/draw/rule-2-large.json";
import { chiSquareOfEqualCells } from "../random/chi-square";
import { armsOf, NO_HISTORY, someInputs, timesTaken } from "./draw-inputs";

const PLAIN: DrawDesign = { meetAgainShare: 0, fetchAfterDays: null };
const equalArms = (arms: number) => new Array<number>(arms).fill(0);

function drawn(
  inputs: DrawInputs,
  random: RandomSource,
  history: Partial<DrawHistory> = {},
  design: Partial<DrawDesign> = {},
): string[] {
  return armsOf(mostInformative(inputs, random, { ...NO_HISTORY, ...history }, { ...PLAIN, ...design }));
}

/** A tally of random blocks of the arms `a, a + 1, …, b − 1`. */
function someTally(v: number, draws: number, random: RandomSource, [a, b] = [0, v]): DrawTally {
  let tally = emptyTally();
  const arms = Array.from({ length: b! - a! }, (_, i) => a! + i);
  for (let i = 0; i < draws; i++)
    tally = addToTally(tally, v, random.shuffle(arms).slice(0, 2 + random.below(3)));
  return tally;
}

const placementsOf = (arms: readonly string[]): Placement[] =>
  arms.map((arm, i) => ({ position: i + 1, arm }));

test("rule grainlot-draw/2 never changes: 24 arms, sets of 12 and 5", () => {
  // Frozen results of an independent implementation: fixtures/reference/draw/generate.py.
  const { arms, design, secretHex, trialId, draws } = frozen;
  const earlier = new EarlierDraws(arms.map(({ code }) => code));
  for (const [at, { arms: result, fetchAfterDays, ...given }] of draws.entries()) {
    const before = earlier.drawnBefore(given.climateGroup);
    const inputs = {
      ...given,
      outingId: `${at}`,
      timeHash: "",
      arms: arms.map(({ code, grain }) => ({ code, grain, drawnBefore: before.get(code) ?? 0 })),
    };
    const random = drawSource({ secretHex, trialId, drawNumber: at + 1 });
    const placements = placementsOf(result);
    expect(mostInformative(inputs, random, earlier.of(inputs), design)).toEqual({
      ok: true,
      placements,
      fetchAfterDays,
    });
    earlier.add({ inputs, result: placements });
  }
});

describe("which arms are taken", () => {
  test("arms repeat only when boxes outnumber them, and then as evenly as can be", () => {
    for (let boxes = 2; boxes <= 12; boxes++) {
      for (const arms of [2, 3, 4, 6, 12, 24]) {
        const random = seededSource(`${boxes} of ${arms}`);
        const inputs = someInputs({ drawnBefore: equalArms(arms), boxes });
        const taken = drawn(inputs, random, { group: someTally(arms, 5, random) });
        const times = [...timesTaken(taken).values()];
        expect(taken).toHaveLength(boxes);
        expect(times).toHaveLength(Math.min(boxes, arms));
        expect(Math.max(...times)).toBe(Math.ceil(boxes / arms));
        expect(Math.min(...times)).toBe(Math.max(1, Math.floor(boxes / arms)));
      }
    }
  });

  test("only arms whose grain is at hand", () => {
    const inputs = someInputs({
      drawnBefore: equalArms(8),
      boxes: 3,
      grainsAtHand: ["rye", "millet", "wild-rice"],
    });
    for (let i = 0; i < 50; i++) {
      for (const arm of drawn(inputs, seededSource(`${i}`))) {
        expect(["arm-3", "arm-4", "arm-7", "arm-8"]).toContain(arm);
      }
    }
  });

  test("a group is connected after the fewest sets that can do it, whatever came out", () => {
    // A block of k arms joins at most k parts into one, so v arms need at least (v − 1)/(k − 1) blocks.
    for (const [arms, boxes] of [
      [12, 3],
      [24, 4],
      [7, 2],
      [24, 12],
      [6, 4],
    ] as const) {
      for (let run = 0; run < 10; run++) {
        const random = seededSource(`${arms} ${boxes} ${run}`);
        let group = emptyTally();
        for (let set = 0; set < Math.ceil((arms - 1) / (boxes - 1)); set++) {
          const taken = drawn(someInputs({ drawnBefore: equalArms(arms), boxes }), random, { group });
          group = addToTally(
            group,
            arms,
            taken.map((arm) => Number(arm.slice(4)) - 1),
          );
        }
        expect(new Set(connectedParts(group, arms))).toEqual(new Set([0]));
      }
    }
  });

  test("a household that alone has two otherwise separate grains joins them", () => {
    const random = seededSource("bridge");
    let group = emptyTally();
    for (let i = 0; i < 20; i++) group = addToTally(addToTally(group, 8, [0, 1, 2, 3]), 8, [4, 5, 6, 7]);
    const inputs = someInputs({ drawnBefore: equalArms(8), boxes: 2 });
    for (let i = 0; i < 50; i++) {
      const sides = drawn(inputs, random, { group }).map((arm) => Number(arm.slice(4)) > 4);
      expect(new Set(sides).size).toBe(2);
    }
  });

  test("arms little compared so far come oftener than others", () => {
    const random = seededSource("behind");
    const group = someTally(6, 40, random, [0, 4]);
    const joined = addToTally(addToTally(group, 6, [0, 4]), 6, [1, 5]);
    const inputs = someInputs({ drawnBefore: equalArms(6), boxes: 2 });
    const counts = timesTaken(
      Array.from({ length: 400 }, () => drawn(inputs, random, { group: joined })).flat(),
    );
    const behind = (counts.get("arm-5") ?? 0) + (counts.get("arm-6") ?? 0);
    // 400 sets of 2: by chance alone a third, 267 of 800.
    expect(behind).toBeGreaterThan(500);
  });

  test("the region counts where the group doesn't decide", () => {
    const random = seededSource("region");
    let group = emptyTally();
    for (let a = 0; a < 6; a++) for (let b = a + 1; b < 6; b++) group = addToTally(group, 6, [a, b]);
    let region = emptyTally();
    for (let i = 0; i < 3; i++) region = addToTally(region, 6, [0, 1]);
    const inputs = someInputs({ drawnBefore: equalArms(6), boxes: 2 });
    const sets = Array.from({ length: 400 }, () => drawn(inputs, random, { group, region }).sort().join());
    // All 15 pairs serve the group alike, so that each would come about 27 times were the region nothing.
    expect(timesTaken(sets).get("arm-1,arm-2") ?? 0).toBeLessThan(5);
  });
});

describe("meeting an arm again", () => {
  const inputs = someInputs({ drawnBefore: equalArms(12), boxes: 3 });
  const random = seededSource("again");
  const group = someTally(12, 40, random);
  const metByHousehold = new Map([
    ["arm-1", 1],
    ["arm-2", 1],
    ["arm-9", 2],
  ]);
  const metIn = (taken: readonly string[]) => taken.filter((arm) => metByHousehold.has(arm)).length;

  test("never while unmet arms suffice, when the plan's share is 0", () => {
    for (let i = 0; i < 200; i++) expect(metIn(drawn(inputs, random, { group, metByHousehold }))).toBe(0);
  });

  test("always at least one when it is 1", () => {
    for (let i = 0; i < 200; i++) {
      expect(metIn(drawn(inputs, random, { group, metByHousehold }, { meetAgainShare: 1 }))).toBeGreaterThan(
        0,
      );
    }
  });

  test("in the plan's share of sets: 4,000 sets at 0.3, within 4 standard errors of 1,200 (binomial)", () => {
    let meetings = 0;
    for (let i = 0; i < 4000; i++) {
      if (metIn(drawn(inputs, random, { group, metByHousehold }, { meetAgainShare: 0.3 })) > 0) meetings += 1;
    }
    expect(Math.abs(meetings - 1200)).toBeLessThan(4 * Math.sqrt(4000 * 0.3 * 0.7));
  });

  test("as it happens once so few unmet arms are left that the next set could be told from the last", () => {
    // Half of six arms were met: were the others preferred, the next set would be sure.
    const halfMet = new Map(["arm-1", "arm-2", "arm-3"].map((arm) => [arm, 1]));
    const grainsAtHand = ["barley-pearl", "rye", "oats"];
    const sets = Array.from({ length: 200 }, () =>
      drawn({ ...inputs, grainsAtHand }, random, { group, metByHousehold: halfMet }),
    );
    const times = timesTaken(sets.flat());
    expect(times.size).toBe(6);
    // 100 each were all arms alike to the draw.
    for (const count of times.values()) expect(count).toBeGreaterThan(30);
  });
});

describe("a returned allocation", () => {
  const random = seededSource("returned");
  const given = ["arm-7", "arm-1", "arm-4", "arm-10"];
  const returned = { result: placementsOf(given) };
  const returns = "018f3a5e-0000-7000-8000-0000000000aa";
  const inputsWith = (changed: Partial<DrawInputs>) => ({
    ...someInputs({ drawnBefore: equalArms(12), boxes: 4 }),
    returns,
    ...changed,
  });

  test("comes back whole, its places drawn anew", () => {
    const orders = new Set<string>();
    for (let i = 0; i < 300; i++) {
      const taken = drawn(inputsWith({}), random, { returned });
      orders.add(taken.join());
      expect([...taken].sort()).toEqual([...given].sort());
    }
    expect(orders.size).toBe(24);
  });

  test("with fewer boxes leaves out its last ones", () => {
    expect(drawn(inputsWith({ boxes: 2 }), random, { returned }).sort()).toEqual(["arm-1", "arm-7"]);
  });

  test("with more boxes, or without a grain, is filled up with other arms", () => {
    const seven = drawn(inputsWith({ boxes: 7 }), random, { returned });
    expect(new Set(seven).size).toBe(7);
    expect(seven).toEqual(expect.arrayContaining(given));
    const grainsAtHand = ["barley-pearl", "rye", "oats", "millet"];
    const withoutOne = drawn(inputsWith({ grainsAtHand }), random, { returned });
    expect(withoutOne).toEqual(expect.arrayContaining(["arm-7", "arm-1", "arm-4"]));
    expect(new Set(withoutOne).size).toBe(4);
    expect(withoutOne).not.toContain("arm-10");
  });

  test("repeats no arm that boxes don't make repeat", () => {
    const repeated = { result: placementsOf(["arm-1", "arm-1", "arm-2", "arm-2"]) };
    expect(drawn(inputsWith({ boxes: 2 }), random, { returned: repeated }).sort()).toEqual([
      "arm-1",
      "arm-2",
    ]);
    const twoArms = inputsWith({ grainsAtHand: ["barley-pearl"] });
    expect(drawn(twoArms, random, { returned: repeated }).sort()).toEqual([
      "arm-1",
      "arm-1",
      "arm-2",
      "arm-2",
    ]);
  });

  test("keeps its fetch day; one that had none gets one", () => {
    const design = { ...PLAIN, fetchAfterDays: [4, 6] };
    const fetchOf = (fetchAfterDays?: number) => {
      const history = { ...NO_HISTORY, returned: { ...returned, fetchAfterDays } };
      const result = mostInformative(inputsWith({}), random, history, design);
      return result.ok && result.fetchAfterDays;
    };
    expect(fetchOf(9)).toBe(9);
    expect([4, 6]).toContain(fetchOf());
  });
});

describe("what a draw depends on", () => {
  test("same inputs, history and source, same draw; another draw number, another draw", () => {
    const inputs = someInputs({ drawnBefore: equalArms(24), boxes: 12 });
    const history = { group: someTally(24, 30, seededSource("group")) };
    const key = { secretHex: "5a".repeat(32), trialId: "t", drawNumber: 1 };
    const first = drawn(inputs, drawSource(key), history);
    expect(drawn(structuredClone(inputs), drawSource(key), structuredClone(history))).toEqual(first);
    expect(drawn(inputs, drawSource({ ...key, drawNumber: 2 }), history)).not.toEqual(first);
  });

  test("relabelled arms and grains give the relabelled result", () => {
    const random = seededSource("labels");
    for (let i = 0; i < 100; i++) {
      const v = 2 + random.below(10);
      const inputs = someInputs({ drawnBefore: equalArms(v), boxes: 2 + random.below(11) });
      const names = random.shuffle(inputs.arms.map((_, j) => `z${j}`));
      const nameOf = new Map(inputs.arms.map((arm, j) => [arm.code, names[j]!]));
      const met = random.shuffle(inputs.arms).slice(0, random.below(v));
      const history = {
        group: someTally(v, random.below(9), random),
        region: someTally(v, random.below(3), random),
      };
      const relabelled: DrawInputs = {
        ...inputs,
        grainsAtHand: inputs.grainsAtHand.map((grain) => `g-${grain}`),
        arms: inputs.arms.map((arm) => ({ ...arm, code: nameOf.get(arm.code)!, grain: `g-${arm.grain}` })),
      };
      const ofArms = (codes: readonly string[]) => new Map(codes.map((code) => [code, 1]));
      const metByHousehold = ofArms(met.map(({ code }) => code));
      const relabelledMet = ofArms(met.map(({ code }) => nameOf.get(code)!));
      const share = { meetAgainShare: 0.5 };
      expect(
        drawn(relabelled, seededSource(`${i}`), { ...history, metByHousehold: relabelledMet }, share),
      ).toEqual(
        drawn(inputs, seededSource(`${i}`), { ...history, metByHousehold }, share).map((arm) =>
          nameOf.get(arm),
        ),
      );
    }
  });

  test("a tally in parts, or read back with its sizes in another order, moves nothing", () => {
    const random = seededSource("parts");
    const group = someTally(12, 60, random);
    const reordered = {
      draws: group.draws,
      blocks: Object.fromEntries(Object.entries(group.blocks).reverse()),
    };
    const inputs = someInputs({ drawnBefore: equalArms(12), boxes: 3 });
    for (let i = 0; i < 20; i++) {
      expect(drawn(inputs, seededSource(`${i}`), { group: reordered })).toEqual(
        drawn(inputs, seededSource(`${i}`), { group }),
      );
    }
  });
});

describe("chance", () => {
  // Upper critical values at 0.001: NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.4.
  test("at first every two of six arms are equally likely, and so is every place: 100,000 draws", {
    timeout: 120_000,
  }, () => {
    const inputs = someInputs({ drawnBefore: equalArms(6), boxes: 2 });
    const random = seededSource("two of six");
    const ordered = new Map<string, number>();
    for (let i = 0; i < 100_000; i++) {
      const order = drawn(inputs, random).join();
      ordered.set(order, (ordered.get(order) ?? 0) + 1);
    }
    // 30 ordered pairs, 29 df, critical value 58.301.
    expect(ordered.size).toBe(30);
    expect(chiSquareOfEqualCells([...ordered.values()])).toBeLessThan(58.301);
  });

  test("a set that is sure is put in every order: 100,000 draws, 23 df, critical value 49.728", () => {
    const inputs = someInputs({ drawnBefore: equalArms(4), boxes: 4 });
    const random = seededSource("four of four");
    const orders = new Map<string, number>();
    for (let i = 0; i < 100_000; i++) {
      const order = drawn(inputs, random).join();
      orders.set(order, (orders.get(order) ?? 0) + 1);
    }
    expect(orders.size).toBe(24);
    expect(chiSquareOfEqualCells([...orders.values()])).toBeLessThan(49.728);
  });

  test("every staged fetch day is equally likely: 30,000 draws, 2 df, critical value 13.816", () => {
    const inputs = someInputs({ drawnBefore: equalArms(4), boxes: 4 });
    const random = seededSource("fetch");
    const counts = new Map<number | undefined, number>();
    for (let i = 0; i < 30_000; i++) {
      const result = mostInformative(inputs, random, NO_HISTORY, { ...PLAIN, fetchAfterDays: [4, 6, 9] });
      const day = result.ok ? result.fetchAfterDays : undefined;
      counts.set(day, (counts.get(day) ?? 0) + 1);
    }
    expect([...counts.keys()].sort()).toEqual([4, 6, 9]);
    expect(chiSquareOfEqualCells([...counts.values()])).toBeLessThan(13.816);
  });
});
