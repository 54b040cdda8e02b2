import { describe, expect, it } from "vitest";
import { cellMean, contrast, difference, jointTest } from "@/lib/engine/statistics/mixed/contrasts";
import { fitMixedModel } from "@/lib/engine/statistics/mixed/fit-mixed-model";
import { columnsOf } from "./columns-of";
import { fitted } from "./reference";

interface Box {
  grower: string;
  outing: string;
  band?: string;
  arm: string;
  set?: string;
  y: number | null;
}

function columnsFrom(boxes: readonly Box[]) {
  const column = <K extends keyof Box>(key: K) => boxes.map((box) => box[key]!);
  return columnsOf({
    grower: column("grower"),
    outing: column("outing"),
    arm: column("arm"),
    band: boxes.map(({ band }) => band ?? "b"),
    set: boxes.map(({ set }) => set ?? ""),
    y: boxes.map(({ y }) => y),
  });
}

/** Numbers without pattern, the same at every run. */
function noise(i: number): number {
  return ((i * 7919) % 101) / 25;
}

/** Growers `from` to `to` with two outings, each holding every one of the arms. */
function trial(from: number, to: number, arms: readonly string[], more: Partial<Box> = {}): Box[] {
  const boxes: Box[] = [];
  for (let g = from; g <= to; g++) {
    for (const o of [1, 2]) {
      for (const arm of arms) {
        const y = noise(1 + g * 31 + o * 13 + arm.charCodeAt(0));
        boxes.push({ grower: `g${g}`, outing: `g${g}o${o}`, arm, y, ...more });
      }
    }
  }
  return boxes;
}

describe("what can be estimated", () => {
  it("compares arms linked by a chain of growers, and no others", () => {
    const fit = fitted(
      columnsFrom([...trial(1, 6, ["a", "b"]), ...trial(7, 12, ["b", "c"]), ...trial(13, 18, ["d", "e"])]),
    );
    expect(difference(fit, "b", "a", "c").estimable).toBe(true);
    expect(difference(fit, "b", "d", "e").estimable).toBe(true);
    expect(difference(fit, "b", "a", "d")).toEqual({ estimable: false, reason: "NOT_LINKED" });
    expect(cellMean(fit, "b", "d").estimable).toBe(true);
    expect(cellMean(fit, "b", "none")).toEqual({ estimable: false, reason: "NO_BOXES" });
    const across = [
      { band: "b", arm: "a", weight: 1 },
      { band: "b", arm: "d", weight: -1 },
    ];
    expect(jointTest(fit, [across])).toBeNull();
  });

  it("links arms that only different outings of a grower held", () => {
    const boxes = trial(1, 8, ["a", "b"]).map((box) => ({ ...box, outing: `${box.grower}${box.arm}` }));
    expect(difference(fitted(columnsFrom(boxes)), "b", "a", "b").estimable).toBe(true);
    const fixed = fitted(columnsFrom(boxes.concat(trial(9, 12, ["a", "c"]))), { fixedOutings: true });
    expect(difference(fixed, "b", "a", "c").estimable).toBe(true);
    expect(difference(fixed, "b", "a", "b")).toEqual({ estimable: false, reason: "WITHIN_OUTINGS_ONLY" });
  });

  it("doesn't compare an arm with those that only growers with another set of arms at hand had", () => {
    const boxes = [
      ...trial(1, 6, ["a", "b"], { set: "a b" }),
      // The same growers later, with other grain at hand.
      ...trial(1, 6, ["c", "d"], { set: "c d" }).map((box) => ({ ...box, outing: `${box.outing} later` })),
    ];
    const fit = fitted(columnsFrom(boxes));
    expect(difference(fit, "b", "a", "b").estimable).toBe(true);
    expect(difference(fit, "b", "a", "c")).toEqual({ estimable: false, reason: "AVAILABILITY" });
    expect(cellMean(fit, "b", "a")).toEqual({ estimable: false, reason: "AVAILABILITY" });
  });

  it("a contrast within a band doesn't depend on how availability sets are averaged", () => {
    const boxes = [
      ...trial(1, 6, ["a", "b", "c"], { set: "a b c" }),
      ...trial(7, 12, ["a", "b"], { set: "a b" }),
    ];
    const fit = fitted(columnsFrom(boxes));
    const found = difference(fit, "b", "a", "c");
    const [one, other] = [cellMean(fit, "b", "a"), cellMean(fit, "b", "c")];
    if (!found.estimable || !one.estimable || !other.estimable) throw new Error("Not estimable.");
    expect(found.estimate).toBeCloseTo(one.estimate - other.estimate, 12);
  });

  it("compares a difference between bands", () => {
    const boxes = [...trial(1, 6, ["a", "b"], { band: "one" }), ...trial(7, 12, ["a", "b"], { band: "two" })];
    const fit = fitted(columnsFrom(boxes));
    const interaction = contrast(fit, [
      { band: "one", arm: "a", weight: 1 },
      { band: "one", arm: "b", weight: -1 },
      { band: "two", arm: "a", weight: -1 },
      { band: "two", arm: "b", weight: 1 },
    ]);
    const [one, two] = [difference(fit, "one", "a", "b"), difference(fit, "two", "a", "b")];
    if (!interaction.estimable || !one.estimable || !two.estimable) throw new Error("Not estimable.");
    expect(interaction.estimate).toBeCloseTo(one.estimate - two.estimate, 12);
  });
});

describe("rare availability sets", () => {
  const common = trial(1, 6, ["a", "b"], { set: "a b" });

  it("join the commonest when even together they are rare", () => {
    const fit = fitted(columnsFrom([...common, ...trial(7, 8, ["a"], { set: "a" })]));
    expect(fit.warnings).toContainEqual({ code: "SETS_MERGED", band: "b", sets: ["a"], into: "a b" });
    expect(fit.solution.setGroups).toEqual([]);
  });

  it("stand together when they are not", () => {
    const rare = [
      ...trial(7, 8, ["a", "b"], { set: "a b c" }),
      ...trial(9, 10, ["a", "b"], { set: "a b d" }),
    ];
    const fit = fitted(columnsFrom([...common, ...rare]));
    const merged = { code: "SETS_MERGED", band: "b", sets: ["a b c", "a b d"], into: null };
    expect(fit.warnings).toContainEqual(merged);
    expect(fit.solution.setGroups.map(({ share }) => share)).toEqual([0.6, 0.4]);
  });
});

describe("what can't be fitted", () => {
  it("is refused by name", () => {
    const boxes = trial(1, 4, ["a", "b"]);
    const unmeasured = boxes.map((box) => ({ ...box, y: null }));
    expect(fitMixedModel(columnsFrom(unmeasured))).toEqual({ ok: false, reason: "NO_BOXES" });
    const alike = boxes.map((box) => ({ ...box, y: 0.1 }));
    expect(fitMixedModel(columnsFrom(alike))).toEqual({ ok: false, reason: "NO_VARIATION" });
    expect(fitMixedModel(columnsFrom(boxes.slice(0, 2)))).toEqual({ ok: false, reason: "TOO_FEW_BOXES" });
  });

  it("counts boxes without an outcome", () => {
    const boxes = trial(1, 4, ["a", "b"]).map((box, i) => (i % 5 === 0 ? { ...box, y: null } : box));
    expect(fitted(columnsFrom(boxes))).toMatchObject({ boxes: 12, unmeasured: 4, growers: 4 });
  });

  it("throws on an outing of two growers or two bands", () => {
    const boxes = trial(1, 3, ["a", "b"]);
    const shared = boxes.map((box) => ({ ...box, outing: "o" }));
    expect(() => fitMixedModel(columnsFrom(shared))).toThrow(/"o".*two growers/);
    const bands = boxes.map((box, i) => ({ ...box, band: i % 2 ? "x" : "y" }));
    expect(() => fitMixedModel(columnsFrom(bands))).toThrow(/own outing/);
  });
});

describe("terms the data can't show", () => {
  it("a single grower's level is in the means", () => {
    const boxes = trial(1, 1, ["a", "b"]).concat(
      trial(1, 1, ["a", "b"]).map((box, i) => ({ ...box, outing: `${box.outing} again`, y: noise(50 + i) })),
    );
    const fit = fitted(columnsFrom(boxes));
    expect(fit.variance.grower).toBeNull();
    expect(fit.warnings).toContainEqual({ code: "NOT_SEPARABLE", term: "grower", within: [] });
  });

  it("outings of single boxes are in the residual", () => {
    const boxes = trial(1, 8, ["a", "b"]).map((box) => ({ ...box, outing: box.outing + box.arm }));
    const { variance, warnings } = fitted(columnsFrom(boxes));
    expect(variance.outing).toBeNull();
    expect(variance.growerArm).not.toBeNull();
    expect(warnings).toContainEqual({ code: "NOT_SEPARABLE", term: "outing", within: ["residual"] });
  });

  it("says when boxes alike in all terms hardly differ", () => {
    const boxes = trial(1, 8, ["a", "b"]).map((box, i) => {
      return { ...box, y: box.arm.charCodeAt(0) + noise(Number(box.grower.slice(1))) + 1e-9 * noise(i) };
    });
    const { warnings } = fitted(columnsFrom(boxes));
    expect(warnings).toContainEqual({ code: "RESIDUAL_VANISHES" });
  });
});
