import type { RandomSource } from "../random/source";

/**
 * Letters and digits that stay apart in handwriting on a wet label: of each look-alike set at most one is kept
 * (none of 0 O, none of 1 I L, 2 not Z, 5 not S, 8 not B); no vowel and no Y, so that no word appears.
 */
export const OUTING_CODE_ALPHABET = "23456789CDFGHJKMNPQRTVWX";

const OUTING_CODE_LENGTH = 3;

/**
 * A short code for an outing's labels, three different characters: one of 24·23·22 = 12,144, each equally likely.
 * Codes may meet; the caller makes another when one is taken.
 */
export function outingCode(random: RandomSource): string {
  return random
    .shuffle([...OUTING_CODE_ALPHABET])
    .slice(0, OUTING_CODE_LENGTH)
    .join("");
}

/** The code on a box's label, such as `K7Q-2`; `position` runs from 1. */
export function boxCode(code: string, position: number): string {
  if (!Number.isInteger(position) || position < 1) {
    throw new RangeError(`A box's position is 1, 2, 3, …; got ${position}.`);
  }
  return `${code}-${position}`;
}
