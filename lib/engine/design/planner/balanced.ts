import { BALANCED_FAMILIES, type BalancedFamily } from "./balanced-families";
import { chooseCount, subsets } from "./cyclic";
import type { SetOfArms } from "./information";

/** All subsets of the arms are a balanced design too; with more sets than this nobody uses it. */
const MOST_UNREDUCED = 110;

/**
 * A balanced incomplete design with as few sets as we know: every arm equally often, every two arms together equally
 * often. null where we know none of at most 276 sets (all pairs of 24 arms). Sets of more than half the arms are the
 * complements of those of the others.
 */
export function balancedDesign(arms: number, boxes: number): readonly SetOfArms[] | null {
  if (boxes >= arms || boxes < 2) return null;
  const few = Math.min(boxes, arms - boxes);
  const design = designOfFew(arms, few);
  if (design === null || few === boxes) return design;
  return design.map((set) => [...Array(arms).keys()].filter((arm) => !set.includes(arm)));
}

function designOfFew(arms: number, boxes: number): readonly SetOfArms[] | null {
  const family = BALANCED_FAMILIES.find((known) => known.arms === arms && known.boxes === boxes);
  if (family) return develop(family);
  if (boxes > 2 && chooseCount(arms, boxes) > MOST_UNREDUCED) return null;
  return subsets([...Array(arms).keys()], boxes);
}

/** Shift after shift of each initial set, so that arms are used evenly on the way. */
function develop({ modulus, orbits, initial }: BalancedFamily): SetOfArms[] {
  const moving = modulus * orbits;
  return initial.split(", ").flatMap((text) => {
    const start = text.split(" ").map(Number);
    return Array.from({ length: modulus }, (_, shift) =>
      start.map((arm) => {
        if (arm >= moving) return arm;
        const place = arm % modulus;
        return arm - place + ((place + shift) % modulus);
      }),
    );
  });
}
