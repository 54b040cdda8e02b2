import { describe, expect, it } from "vitest";
import { type RandomSource, seededSource } from "@/lib/engine/random/source";
import type { CutBox } from "@/lib/engine/statistics/cut-changes";
import { groupBy } from "@/lib/engine/statistics/grouping";
import { nextCut } from "@/lib/engine/statistics/successive-cuts";
import { rankOf } from "./subtraction-attack";

const MEASURES = { main: ["lost", "take"], others: ["usable"] };

const box = (n: number, grower: string, more: Partial<CutBox> = {}): CutBox => ({
  ...{ key: `box${n}`, grower, arm: "a", band: "Cfb", region: "coast", season: "spring", warmth: "" },
  told: { lost: "0", take: "2", usable: "" },
  ...more,
});
/** One box each of so many growers. */
const boxes = (from: number, growers: number, more: Partial<CutBox> = {}): CutBox[] =>
  Array.from({ length: growers }, (_, i) => box(from + i, `g${from + i}`, more));

describe("the boxes that later figures may rest on", () => {
  const first = boxes(0, 6);

  it("are all of them while nothing was shown yet", () => {
    expect(nextCut([], first, MEASURES)).toBe(first);
    expect(nextCut([first], first, MEASURES)).toBe(first);
  });

  it("leave new boxes out until 3 households and 5 boxes have come", () => {
    const two = [...first, ...boxes(10, 2), box(12, "g10"), box(13, "g10"), box(14, "g11")];
    expect(nextCut([first], two, MEASURES)).toEqual(first);
    const three = [...two, box(15, "g12")];
    expect(nextCut([first], three, MEASURES)).toBe(three);
    const fourBoxes = [...first, ...boxes(10, 4)];
    expect(nextCut([first], fourBoxes, MEASURES)).toEqual(first);
  });

  it("keep a record as it was until others change with it", () => {
    const corrected = first.map((own, i) => (i < 2 ? { ...own, told: { ...own.told, take: "4" } } : own));
    expect(nextCut([first], corrected, MEASURES)).toEqual(first);
    const more = [...corrected, ...boxes(10, 5)];
    expect(nextCut([first], more, MEASURES)).toBe(more);
  });

  it("leave out a recipe's first boxes, and keep its only ones as they were, until enough have come", () => {
    const first = [box(0, "g0"), ...boxes(20, 5, { arm: "b" })];
    const corrected = box(0, "g0", { told: { lost: "0", take: "4", usable: "" } });
    const later = [corrected, ...first.slice(1), ...boxes(40, 2, { arm: "c" })];
    expect(nextCut([first], later, MEASURES)).toEqual(first);
    const enough = [...later, ...boxes(50, 5), ...boxes(60, 3, { arm: "c" })];
    expect(nextCut([first], enough, MEASURES)).toBe(enough);
  });

  it("let one region wait and not the other", () => {
    const before = [...first, ...boxes(20, 5, { region: "hills" })];
    const ample = boxes(10, 5);
    const lone = box(30, "g30", { region: "hills" });
    const shown = nextCut([before], [...before, ...ample, lone], MEASURES);
    expect(shown.map(({ key }) => key)).toEqual([...before, ...ample].map(({ key }) => key));
  });

  it("show what was weighed of them only where enough were", () => {
    const weighed = boxes(10, 6).map((own, i) => ({
      ...own,
      told: { ...own.told, usable: i < 2 ? "300" : "" },
    }));
    const shown = nextCut([first], [...first, ...weighed], MEASURES);
    expect(shown.length).toBe(12);
    expect(shown.every(({ told }) => told.usable === "")).toBe(true);
  });

  it("never show what two corrections in turn would give away", () => {
    const change = (of: readonly CutBox[], growers: readonly string[], take: string) =>
      of.map((own) => (growers.includes(own.grower) ? { ...own, told: { ...own.told, take } } : own));
    const many = [...first, ...boxes(6, 6)];
    const second = change(many, ["g0", "g1", "g2", "g3", "g4"], "4");
    expect(nextCut([many], second, MEASURES)).toBe(second);
    // Four go back and one more changes: next to the second cut that is five, next to the first it is two.
    const third = change(change(second, ["g0", "g1", "g2", "g3"], "2"), ["g9"], "0");
    expect(nextCut([second], third, MEASURES)).toBe(third);
    expect(nextCut([many, second], third, MEASURES)).toEqual(second);
  });
});

/** Households with boxes at 2 regions × 2 bands × 2 seasons, 2 arms; `round` decides which boxes are there yet. */
function growingTrial(source: RandomSource, rounds: number): CutBox[][] {
  const all = Array.from({ length: 12 + source.below(30) }, (_, g) => {
    const place = {
      region: ["coast", "hills"][Number(source.below(3) > 0)]!,
      band: ["Cfb", "Csb"][Number(source.below(4) > 0)]!,
    };
    return Array.from({ length: 2 + source.below(6) }, (__, b) => ({
      since: source.below(rounds),
      own: box(b, `g${g}`, {
        ...place,
        key: `g${g} box${b}`,
        season: ["spring", "autumn"][source.below(2)]!,
        arm: `arm${source.below(2)}`,
        told: { lost: String(Number(source.below(8) === 0)), take: String(source.below(5)), usable: "" },
      }),
    }));
  }).flat();
  return Array.from({ length: rounds }, (_, round) =>
    all
      .filter(({ since }) => since <= round)
      .map(({ own }) =>
        round > 0 && source.below(25) === 0
          ? { ...own, told: { ...own.told, take: String(source.below(5)) } }
          : own,
      ),
  );
}

interface Change {
  readonly grower: string;
  readonly at: readonly [arm: string, band: string, region: string, season: string];
}

/** What differs between two cuts in one measure, box by box, worked out apart from the engine. */
function differences(a: readonly CutBox[], b: readonly CutBox[], measure: string): Change[] {
  const text = (own: CutBox | undefined): string => own?.told[measure] ?? "";
  const keys = [...new Set([...a, ...b].map(({ key }) => key))];
  return keys.flatMap((key) => {
    const [was, is] = [a, b].map((cut) => cut.find((own) => own.key === key));
    if (text(was) === text(is)) return [];
    const { grower, arm, band, region, season } = (is ?? was)!;
    return [{ grower, at: [arm, band, region, season] as const }];
  });
}

describe("successive cuts, against an attacker who keeps every page", () => {
  it("never differ, in what any sums and differences of groups tell, by fewer than 3 households", {
    timeout: 60_000,
  }, () => {
    let [taken, waiting] = [0, 0];
    for (let i = 0; i < 40; i++) {
      const rounds = growingTrial(seededSource(`successive ${i}`), 3);
      const shown: (readonly CutBox[])[] = [];
      for (const now of rounds) {
        const next = nextCut(shown, now, MEASURES);
        const wasThere = new Set(shown.at(-1)?.map(({ key }) => key));
        if (shown.length > 0) {
          taken += next.filter(({ key }) => !wasThere.has(key)).length;
          waiting += now.length - next.length;
        }
        shown.push(next);
      }
      for (const [a, before] of shown.entries()) {
        for (const after of shown.slice(a + 1)) {
          for (const measure of MEASURES.main)
            expectNothingThin(differences(before, after, measure), `trial ${i}, ${measure}`);
        }
      }
    }
    expect(taken).toBeGreaterThan(700);
    expect(waiting).toBeGreaterThan(300);
  });
});

/** Figures by arm and group, by arm, by group and over all: nothing they make rests on two households alone. */
function expectNothingThin(changes: readonly Change[], where: string): void {
  const atoms = [...groupBy(changes, ({ at }) => at.join()).values()];
  const at = (place: number) => atoms.map((own) => own[0]!.at[place]!);
  const slices = [
    ...[1, 2, 3].flatMap((by) =>
      [...new Set(at(by))].flatMap((group) => [
        at(by).map((own) => Number(own === group)),
        ...["arm0", "arm1"].map((arm) =>
          at(by).map((own, atom) => Number(own === group && at(0)[atom] === arm)),
        ),
      ]),
    ),
    ...["arm0", "arm1"].map((arm) => at(0).map((own) => Number(own === arm))),
    atoms.map(() => 1),
  ].filter((vector) => vector.includes(1));
  for (const vector of slices) {
    const growers = new Set(atoms.flatMap((own, atom) => (vector[atom] ? own.map((one) => one.grower) : [])));
    expect(growers.size, where).toBeGreaterThanOrEqual(3);
  }
  const rank = rankOf(slices);
  const households = [...new Set(changes.map(({ grower }) => grower))];
  for (const [i, first] of households.entries()) {
    for (const second of households.slice(i + 1)) {
      const rest = slices.map((vector) =>
        vector.filter((_, atom) => atoms[atom]!.some(({ grower }) => grower !== first && grower !== second)),
      );
      expect(rankOf(rest), `${where}: ${first} ${second}`).toBe(rank);
    }
  }
}
