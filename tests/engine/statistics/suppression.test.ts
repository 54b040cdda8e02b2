import { describe, expect, it } from "vitest";
import { type RandomSource, seededSource } from "@/lib/engine/random/source";
import { type Atom, type Figure, figuresToHide } from "@/lib/engine/statistics/suppression";
import { canMake, indicatorOf, rankOf, subsets } from "./subtraction-attack";

function atom(boxes: number, ...households: string[]): Atom {
  return { boxes, households: new Set(households) };
}

function figure(key: string, atoms: number[], worth = 0): Figure {
  return { key, atoms, worth };
}

function small(atoms: readonly Atom[], members: readonly number[]): boolean {
  const households = new Set(members.flatMap((i) => [...atoms[i]!.households]));
  return households.size < 3 || members.reduce((sum, i) => sum + atoms[i]!.boxes, 0) < 5;
}

/** Two ways of cutting the same atoms plus their total: the shape of region × arm, band × arm and arm. */
function randomTable(source: RandomSource): { atoms: Atom[]; figures: Figure[] } {
  const rows = 2 + source.below(3);
  const columns = 2 + source.below(3);
  const atoms: Atom[] = [];
  const figures = new Map<string, number[]>([["total", []]]);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      if (source.below(4) === 0) continue;
      const names = ["a", "b", "c", "d", "e", "f", "g", "h"].slice(0, 2 + source.below(7));
      const households = source.shuffle(names).slice(0, 1 + source.below(4));
      for (const key of [`row ${row}`, `column ${column}`, "total"]) {
        figures.set(key, [...(figures.get(key) ?? []), atoms.length]);
      }
      atoms.push(atom(households.length + source.below(4), ...households));
    }
  }
  return {
    atoms,
    figures: [...figures].map(([key, members]) => ({ key, atoms: members, worth: source.below(3) })),
  };
}

describe("figuresToHide, against an attacker who adds and subtracts", () => {
  it("gives nothing small and nothing hidden away in 300 random sparse tables", () => {
    const source = seededSource("sparse tables");
    let published = 0;
    for (let table = 0; table < 300; table++) {
      const { atoms, figures } = randomTable(source);
      const hidden = figuresToHide(atoms, figures);
      const shown = figures.filter(({ key, atoms: members }) => !hidden.has(key) && members.length > 0);
      const rows = shown.map((figure) => indicatorOf(figure.atoms, atoms.length));
      published += shown.length;
      for (const figure of shown) expect(small(atoms, figure.atoms)).toBe(false);
      for (const figure of figures.filter(({ key }) => hidden.has(key))) {
        expect(canMake(rows, indicatorOf(figure.atoms, atoms.length))).toBe(false);
      }
      for (const members of subsets(atoms.length)) {
        if (!small(atoms, members)) continue;
        expect(canMake(rows, indicatorOf(members, atoms.length)), `table ${table}: ${members}`).toBe(false);
      }
    }
    expect(published).toBeGreaterThan(300);
  });

  it("gives away no difference either that two households alone decide", () => {
    const source = seededSource("differences");
    for (let table = 0; table < 200; table++) {
      const { atoms, figures } = randomTable(source);
      const hidden = figuresToHide(atoms, figures);
      const rows = figures
        .filter(({ key }) => !hidden.has(key))
        .map((figure) => indicatorOf(figure.atoms, atoms.length));
      const names = [..."abcdefgh"];
      for (const first of names) {
        for (const second of names) {
          const others = [...atoms.keys()].filter((i) =>
            [...atoms[i]!.households].some((name) => name !== first && name !== second),
          );
          // Nothing published vanishes on everybody else's atoms: else it would speak of these two alone.
          const without = rows.map((row) => others.map((i) => row[i]!));
          expect(rankOf(without)).toBe(rankOf(rows));
        }
      }
    }
  });
});

describe("figuresToHide", () => {
  const ample = ["a", "b", "c", "d"];

  it("hides nothing where every cell is ample", () => {
    const atoms = Array.from({ length: 6 }, () => atom(8, ...ample));
    const figures = [
      figure("left", [0, 1, 2]),
      figure("right", [3, 4, 5]),
      figure("all", [0, 1, 2, 3, 4, 5]),
    ];
    expect(figuresToHide(atoms, figures)).toEqual(new Set());
  });

  it("hides a second cell, the smallest, where the total would give the first away", () => {
    const atoms = [atom(3, "a"), atom(20, ...ample), atom(9, ...ample), atom(30, ...ample)];
    const cells = atoms.map((_, i) => figure(`cell ${i}`, [i]));
    const total = figure("total", [0, 1, 2, 3]);
    expect(figuresToHide(atoms, cells)).toEqual(new Set(["cell 0"]));
    expect(figuresToHide(atoms, [...cells, total])).toEqual(new Set(["cell 0", "cell 2"]));
  });

  it("takes what is worth less before what is smaller", () => {
    const atoms = [atom(3, "a"), atom(20, ...ample), atom(9, ...ample)];
    const figures = [...atoms.map((_, i) => figure(`cell ${i}`, [i], 1)), figure("total", [0, 1, 2], 0)];
    expect(figuresToHide(atoms, figures)).toEqual(new Set(["cell 0", "total"]));
  });

  it("sees an atom that no figure shows, left over between two that are ample", () => {
    // The band lies in the region but for one household's boxes: region − band is that household.
    const atoms = [atom(20, ...ample), atom(6, "alone"), atom(15, ...ample), atom(15, ...ample)];
    const figures = [figure("band", [0]), figure("region", [0, 1]), figure("elsewhere", [2, 3])];
    expect(figuresToHide(atoms, figures)).toEqual(new Set(["band"]));
  });

  it("sees few boxes of many households, over several atoms", () => {
    const atoms = [atom(1, "a"), atom(1, "b"), atom(1, "c"), atom(1, "d"), atom(20, ...ample)];
    const figures = [figure("most", [4]), figure("all", [0, 1, 2, 3, 4])];
    expect(figuresToHide(atoms, figures)).toEqual(new Set(["most"]));
  });

  it("keeps to a base of three households and five boxes, both included", () => {
    const at = figuresToHide([atom(5, "a", "b", "c")], [figure("x", [0])]);
    const boxesUnder = figuresToHide([atom(4, "a", "b", "c", "d")], [figure("x", [0])]);
    const householdsUnder = figuresToHide([atom(50, "a", "b")], [figure("x", [0])]);
    expect([at.size, boxesUnder.size, householdsUnder.size]).toEqual([0, 1, 1]);
  });

  it("guards what was hidden before it was asked", () => {
    const atoms = [atom(10, ...ample), atom(12, ...ample), atom(14, ...ample)];
    const figures = [...atoms.map((_, i) => figure(`cell ${i}`, [i])), figure("total", [0, 1, 2])];
    expect(figuresToHide(atoms, figures, new Set(["cell 2"]))).toEqual(new Set(["cell 2", "cell 0"]));
  });
});
