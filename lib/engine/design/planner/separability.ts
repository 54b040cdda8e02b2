import type { PlannerRequest } from "@/shared/schemas/planner";
import type { Separability } from "@/shared/schemas/planner-result";
import { generalisedQuadraticForm } from "../../statistics/symmetric";
import { invert, type SetOfArms } from "./information";

/**
 * Grower × arm counts as told apart from the residual when the standard error of its variance is at most this share of
 * the two together: about what twenty repeated comparisons give. Our choice.
 */
const TOLD_APART = 0.25;
/** Growers whose sets are looked at, in even steps; the others tell as much on average. */
const LOOKED_AT = 8;
/** Of a grower's boxes so many are looked at: later sets would only add. */
const MOST_BOXES = 60;

/** Fisher information, 4 × 4, for the variances of grower, outing, grower × arm and residual. */
type VarianceInformation = readonly number[];
const COMPONENTS = 4;
const GROWER_ARM = 2;

/** What telling grower × arm and residual apart rests on; the parts of groups add up. */
export interface RepeatInformation {
  readonly growers: number;
  /** Growers with a recipe in more than one of their sets. */
  readonly meetingAgain: number;
  /** Of the sets as dealt, of the same dealt with no recipe met again on purpose, and with one in every later set. */
  readonly planned: VarianceInformation;
  readonly byItself: VarianceInformation;
  readonly always: VarianceInformation;
}

export interface Dealings {
  readonly planned: readonly (readonly SetOfArms[])[];
  readonly byItself: readonly (readonly SetOfArms[])[];
  readonly always: readonly (readonly SetOfArms[])[];
}

/** @param growers for whom the dealt ones stand */
export function repeatInformation(
  { planned, byItself, always }: Dealings,
  growers: number,
  deviations: PlannerRequest["deviations"],
): RepeatInformation {
  const of = (dealt: readonly (readonly SetOfArms[])[]) => ofGrowers(dealt, growers, deviations);
  const itself = of(byItself);
  return {
    growers,
    meetingAgain: (planned.filter(meetsAgain).length * growers) / planned.length,
    planned: planned === byItself ? itself : of(planned),
    byItself: itself,
    always: of(always),
  };
}

/** The sum over groups. */
export function sumOfRepeats(parts: readonly RepeatInformation[]): RepeatInformation {
  const sum = (of: (part: RepeatInformation) => number) => parts.reduce((total, part) => total + of(part), 0);
  const matrix = (of: (part: RepeatInformation) => VarianceInformation) =>
    of(parts[0]!).map((_, at) => sum((part) => of(part)[at]!));
  return {
    growers: sum(({ growers }) => growers),
    meetingAgain: sum(({ meetingAgain }) => meetingAgain),
    planned: matrix(({ planned }) => planned),
    byItself: matrix(({ byItself }) => byItself),
    always: matrix(({ always }) => always),
  };
}

/** Whether grower × arm and residual can be told apart, and which share of later sets would have to hold a recipe again. */
export function separabilityOf(
  repeats: RepeatInformation,
  { growerArm, residual }: PlannerRequest["deviations"],
): Separability {
  const { growers, meetingAgain, planned, byItself, always } = repeats;
  const together = growerArm ** 2 + residual ** 2;
  const errorOf = (information: VarianceInformation) => growerArmError(information) / together;
  const errorAt = (share: number) => errorOf(byItself.map((x, at) => (1 - share) * x + share * always[at]!));
  const error = errorOf(planned);
  return {
    growersMeetingAgain: meetingAgain / growers,
    error: Number.isFinite(error) ? error : null,
    separable: error <= TOLD_APART,
    shareNeeded: leastShare(errorAt),
  };
}

/** The least share, to whole per cents, that tells them apart; the error falls as the share grows. */
function leastShare(errorAt: (share: number) => number): number | null {
  if (errorAt(1) > TOLD_APART) return null;
  let [low, high] = [-1, 100];
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (errorAt(middle / 100) <= TOLD_APART) high = middle;
    else low = middle;
  }
  return high / 100;
}

/** Standard error of the estimated variance of grower × arm, the other three estimated beside it. */
function growerArmError(information: VarianceInformation): number {
  const own = information[GROWER_ARM * COMPONENTS + GROWER_ARM]!;
  const others = [0, 1, 2, 3].filter((i) => i !== GROWER_ARM);
  const cross = others.map((i) => information[GROWER_ARM * COMPONENTS + i]!);
  const nuisance = others.map((i) => others.map((j) => information[i * COMPONENTS + j]!));
  const left = own - generalisedQuadraticForm(cross, nuisance).value;
  return left > 1e-9 * own ? 1 / Math.sqrt(left) : Number.POSITIVE_INFINITY;
}

function ofGrowers(
  dealt: readonly (readonly SetOfArms[])[],
  growers: number,
  deviations: PlannerRequest["deviations"],
): VarianceInformation {
  const step = Math.max(1, dealt.length / LOOKED_AT);
  const looked = dealt.filter((_, g) => Math.floor(g / step) > Math.floor((g - 1) / step));
  const total = new Array<number>(COMPONENTS * COMPONENTS).fill(0);
  for (const sets of looked) {
    ofGrower(sets, deviations).forEach((x, at) => {
      total[at]! += (x * growers) / looked.length;
    });
  }
  return total;
}

/**
 * ½ tr(V⁻¹VᵢV⁻¹Vⱼ) of one grower's boxes, V = Σ σᵢ²Vᵢ, Vᵢ joining boxes of one grower, one set, one recipe, and each
 * with itself (Searle, Casella & McCulloch 1992, Variance Components, ch. 6; from memory). Arms count as known, which
 * is too hopeful by about their number over that of the growers.
 */
function ofGrower(
  sets: readonly SetOfArms[],
  { grower, outing, growerArm, residual }: PlannerRequest["deviations"],
): VarianceInformation {
  const perSet = sets[0]?.length ?? 0;
  const boxes = sets
    .slice(0, Math.max(1, Math.floor(MOST_BOXES / Math.max(1, perSet))))
    .flatMap((arms, set) => arms.map((arm) => ({ set, arm })));
  const n = boxes.length;
  const variances = [grower ** 2, outing ** 2, growerArm ** 2, residual ** 2];
  const joins = [
    () => true,
    (a: number, b: number) => boxes[a]!.set === boxes[b]!.set,
    (a: number, b: number) => boxes[a]!.arm === boxes[b]!.arm,
    (a: number, b: number) => a === b,
  ];
  const v = Float64Array.from({ length: n * n }, (_, at) =>
    joins.reduce((sum, join, i) => sum + (join(Math.floor(at / n), at % n) ? variances[i]! : 0), 0),
  );
  const inverse = invert(v, n);
  const products = joins.map((join) => productWith(inverse, n, join));
  return products.flatMap((one) =>
    products.map((other) => {
      let trace = 0;
      for (let a = 0; a < n; a++) for (let b = 0; b < n; b++) trace += one[a * n + b]! * other[b * n + a]!;
      return trace / 2;
    }),
  );
}

/** V⁻¹Vᵢ, where Vᵢ has 1 for boxes that `join` and 0 elsewhere. */
function productWith(
  inverse: Float64Array,
  n: number,
  join: (a: number, b: number) => boolean,
): Float64Array {
  const product = new Float64Array(n * n);
  for (let c = 0; c < n; c++) {
    for (let b = 0; b < n; b++) {
      if (!join(c, b)) continue;
      for (let a = 0; a < n; a++) product[a * n + b]! += inverse[a * n + c]!;
    }
  }
  return product;
}

function meetsAgain(sets: readonly SetOfArms[]): boolean {
  const seen = new Set<number>();
  return sets.some((set) => {
    const again = set.some((arm) => seen.has(arm));
    for (const arm of set) seen.add(arm);
    return again;
  });
}
