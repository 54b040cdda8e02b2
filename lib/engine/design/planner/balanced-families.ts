/** Initial sets that, developed, make a balanced incomplete design. */
export interface BalancedFamily {
  readonly arms: number;
  readonly boxes: number;
  /** Development adds 1 modulo this to the place within an orbit. */
  readonly modulus: number;
  /** Arm o·modulus + x is place x of orbit o; arms beyond the last orbit stay where they are. */
  readonly orbits: number;
  /** Sets apart by commas, arms by spaces. */
  readonly initial: string;
}

/*
 * Found by a random search of our own for the least number of sets the necessary conditions allow (vr = bk,
 * λ(v − 1) = r(k − 1), b ≥ v), up to 110 sets; every one is developed and checked by a test. Where the least number is
 * known to be impossible or was not found the next one stands: 15 arms in sets of 5 (42 for 21), 21 in 6 (42 for 28),
 * in 7 (60 for 30) and in 9 (105 for 35), 22 in 7 (44 for 22) and in 8 (66 for 33). More than half the arms in a set:
 * the complements of these.
 */
export const BALANCED_FAMILIES: readonly BalancedFamily[] = [
  { arms: 6, boxes: 3, modulus: 5, orbits: 1, initial: "0 2 4, 2 3 5" },
  { arms: 7, boxes: 3, modulus: 7, orbits: 1, initial: "0 1 5" },
  { arms: 8, boxes: 4, modulus: 7, orbits: 1, initial: "0 3 5 6, 0 2 3 7" },
  { arms: 9, boxes: 3, modulus: 3, orbits: 3, initial: "3 4 7, 0 2 3, 2 7 8, 1 3 8" },
  { arms: 9, boxes: 4, modulus: 9, orbits: 1, initial: "1 2 3 8, 2 4 7 8" },
  { arms: 10, boxes: 3, modulus: 5, orbits: 2, initial: "1 4 6, 3 5 7, 2 5 8, 0 8 9, 0 3 4, 4 5 9" },
  { arms: 10, boxes: 4, modulus: 5, orbits: 2, initial: "0 2 3 7, 2 5 8 9, 2 3 6 8" },
  { arms: 10, boxes: 5, modulus: 9, orbits: 1, initial: "0 2 4 5 8, 3 5 6 7 9" },
  { arms: 11, boxes: 3, modulus: 11, orbits: 1, initial: "0 2 8, 1 5 6, 1 3 6, 0 1 10, 3 7 10" },
  { arms: 11, boxes: 4, modulus: 11, orbits: 1, initial: "1 3 6 7, 2 3 6 8, 2 4 5 8, 0 2 3 4, 1 3 4 8" },
  { arms: 11, boxes: 5, modulus: 11, orbits: 1, initial: "0 1 3 6 10" },
  { arms: 12, boxes: 3, modulus: 11, orbits: 1, initial: "0 1 3, 0 1 4, 4 6 10, 0 6 11" },
  { arms: 12, boxes: 4, modulus: 11, orbits: 1, initial: "3 5 6 8, 1 3 4 8, 0 1 5 11" },
  { arms: 12, boxes: 6, modulus: 11, orbits: 1, initial: "0 1 3 8 10 11, 2 3 5 8 9 10" },
  { arms: 13, boxes: 3, modulus: 13, orbits: 1, initial: "1 4 5, 4 10 12" },
  { arms: 13, boxes: 4, modulus: 13, orbits: 1, initial: "0 1 3 9" },
  { arms: 13, boxes: 5, modulus: 13, orbits: 1, initial: "0 2 4 5 8, 0 1 6 10 12, 1 4 5 6 11" },
  { arms: 13, boxes: 6, modulus: 13, orbits: 1, initial: "1 3 4 5 11 12, 0 3 4 6 8 9" },
  {
    arms: 14,
    boxes: 4,
    modulus: 13,
    orbits: 1,
    initial: "2 6 9 10, 2 8 9 10, 2 4 7 10, 6 8 12 13, 5 9 10 12, 1 2 4 6, 8 11 12 13",
  },
  {
    arms: 14,
    boxes: 6,
    modulus: 13,
    orbits: 1,
    initial:
      "2 3 4 6 11 12, 2 3 10 11 12 13, 3 4 6 8 10 11, 1 5 7 8 10 13, 2 3 5 8 10 12, 1 2 6 8 11 12, 6 9 10 11 12 13",
  },
  { arms: 14, boxes: 7, modulus: 13, orbits: 1, initial: "0 1 2 6 8 9 11, 0 5 8 9 11 12 13" },
  { arms: 15, boxes: 3, modulus: 7, orbits: 2, initial: "0 7 14, 4 7 13, 2 8 13, 4 9 12, 0 2 3" },
  {
    arms: 15,
    boxes: 4,
    modulus: 15,
    orbits: 1,
    initial: "8 10 12 13, 0 6 9 10, 2 4 8 11, 0 2 10 11, 1 2 9 14, 1 4 5 11, 7 9 10 14",
  },
  { arms: 15, boxes: 5, modulus: 14, orbits: 1, initial: "1 5 6 8 14, 0 1 7 9 10, 0 6 8 10 11" },
  {
    arms: 15,
    boxes: 6,
    modulus: 7,
    orbits: 2,
    initial: "0 1 5 8 11 13, 1 2 4 8 10 11, 0 1 2 5 12 14, 6 8 9 10 11 14, 0 4 5 9 12 13",
  },
  { arms: 15, boxes: 7, modulus: 15, orbits: 1, initial: "3 4 5 7 8 11 13" },
  { arms: 16, boxes: 3, modulus: 16, orbits: 1, initial: "5 9 10, 0 1 5, 2 5 15, 5 12 14, 2 10 12" },
  { arms: 16, boxes: 4, modulus: 5, orbits: 3, initial: "3 5 11 15, 0 3 8 9, 7 9 11 12, 1 2 11 13" },
  { arms: 16, boxes: 5, modulus: 16, orbits: 1, initial: "0 2 5 12 13, 1 2 3 7 11, 0 4 11 13 14" },
  { arms: 16, boxes: 6, modulus: 8, orbits: 2, initial: "0 1 4 6 12 13, 0 7 9 10 13 15" },
  {
    arms: 16,
    boxes: 7,
    modulus: 16,
    orbits: 1,
    initial: "0 3 5 7 10 13 15, 0 1 5 6 10 14 15, 0 4 5 7 8 10 11, 0 1 2 4 5 12 14, 0 1 6 8 9 13 15",
  },
  { arms: 16, boxes: 8, modulus: 15, orbits: 1, initial: "4 6 7 8 11 12 14 15, 0 1 3 5 6 7 9 10" },
  { arms: 17, boxes: 4, modulus: 17, orbits: 1, initial: "1 7 9 10, 1 4 11 13, 1 2 14 15, 2 6 8 13" },
  {
    arms: 17,
    boxes: 5,
    modulus: 17,
    orbits: 1,
    initial: "2 3 5 9 13, 3 4 5 14 16, 0 5 8 10 13, 1 4 13 14 15",
  },
  { arms: 17, boxes: 8, modulus: 17, orbits: 1, initial: "0 2 4 9 10 12 13 16, 3 4 6 7 8 9 13 15" },
  {
    arms: 18,
    boxes: 3,
    modulus: 17,
    orbits: 1,
    initial: "12 13 15, 2 7 10, 3 9 13, 6 7 16, 1 5 7, 10 15 17",
  },
  { arms: 18, boxes: 6, modulus: 17, orbits: 1, initial: "2 6 7 12 16 17, 0 2 7 8 10 13, 3 4 5 6 8 12" },
  { arms: 18, boxes: 9, modulus: 17, orbits: 1, initial: "2 3 6 7 8 10 11 13 14, 0 1 3 9 10 11 13 15 17" },
  { arms: 19, boxes: 3, modulus: 19, orbits: 1, initial: "7 10 17, 7 8 12, 5 16 18" },
  { arms: 19, boxes: 4, modulus: 19, orbits: 1, initial: "3 5 10 16, 3 4 6 13, 9 13 14 17" },
  { arms: 19, boxes: 6, modulus: 19, orbits: 1, initial: "3 5 8 11 12 14, 3 4 13 15 17 18, 0 3 7 13 14 15" },
  {
    arms: 19,
    boxes: 7,
    modulus: 19,
    orbits: 1,
    initial: "0 3 5 7 12 13 15, 1 2 3 9 16 17 18, 0 1 6 9 11 12 15",
  },
  { arms: 19, boxes: 9, modulus: 19, orbits: 1, initial: "0 3 6 7 8 9 11 13 18" },
  {
    arms: 20,
    boxes: 4,
    modulus: 19,
    orbits: 1,
    initial: "5 9 10 12, 0 11 13 16, 4 8 13 19, 5 9 17 18, 4 5 15 17",
  },
  {
    arms: 20,
    boxes: 5,
    modulus: 19,
    orbits: 1,
    initial: "0 7 8 9 13, 3 7 10 12 19, 2 3 5 13 17, 1 7 14 15 17",
  },
  {
    arms: 20,
    boxes: 8,
    modulus: 19,
    orbits: 1,
    initial:
      "3 4 6 10 12 13 15 17, 1 2 4 8 9 13 15 19, 2 3 4 5 6 8 16 18, 2 3 5 6 7 12 13 16, 0 1 4 5 8 14 16 19",
  },
  {
    arms: 20,
    boxes: 10,
    modulus: 19,
    orbits: 1,
    initial: "3 6 8 11 12 14 15 16 17 18, 0 2 4 9 10 11 12 15 16 19",
  },
  {
    arms: 21,
    boxes: 3,
    modulus: 7,
    orbits: 3,
    initial: "1 2 18, 2 13 16, 7 8 14, 0 5 8, 10 14 18, 1 5 7, 8 11 20, 3 16 18, 2 14 20, 3 8 10",
  },
  {
    arms: 21,
    boxes: 4,
    modulus: 21,
    orbits: 1,
    initial: "7 10 11 19, 7 10 14 17, 1 3 9 14, 0 10 12 16, 8 13 14 15",
  },
  { arms: 21, boxes: 5, modulus: 21, orbits: 1, initial: "9 11 16 17 20" },
  { arms: 21, boxes: 6, modulus: 21, orbits: 1, initial: "0 5 12 13 14 16, 5 9 11 12 15 20" },
  {
    arms: 21,
    boxes: 7,
    modulus: 20,
    orbits: 1,
    initial: "3 6 8 9 13 17 20, 0 3 6 14 16 18 19, 2 3 6 8 13 14 15",
  },
  {
    arms: 21,
    boxes: 8,
    modulus: 21,
    orbits: 1,
    initial:
      "3 4 5 7 12 13 15 19, 2 5 7 8 11 12 13 19, 0 1 2 3 4 10 13 17, 1 3 7 12 15 16 17 19, 1 6 7 9 11 13 14 17",
  },
  {
    arms: 21,
    boxes: 9,
    modulus: 21,
    orbits: 1,
    initial:
      "0 1 4 5 8 10 11 18 20, 2 5 6 10 13 14 15 18 20, 2 3 4 5 11 13 15 17 20, 4 5 6 7 8 11 12 14 19, 0 5 6 8 10 11 12 15 17",
  },
  {
    arms: 21,
    boxes: 10,
    modulus: 21,
    orbits: 1,
    initial: "1 3 6 10 13 14 16 17 18 19, 0 1 3 5 10 11 12 17 18 20",
  },
  {
    arms: 22,
    boxes: 4,
    modulus: 11,
    orbits: 2,
    initial: "2 5 17 18, 0 1 14 20, 1 9 15 17, 1 8 10 19, 4 10 11 14, 11 13 17 21, 1 2 6 12",
  },
  {
    arms: 22,
    boxes: 6,
    modulus: 11,
    orbits: 2,
    initial:
      "1 8 10 11 15 16, 0 5 6 13 15 21, 4 8 9 11 20 21, 0 3 8 11 14 20, 3 4 5 6 8 13, 3 6 10 14 19 21, 9 11 15 18 19 21",
  },
  { arms: 22, boxes: 7, modulus: 22, orbits: 1, initial: "1 2 5 10 13 18 20, 3 12 13 14 15 19 21" },
  {
    arms: 22,
    boxes: 8,
    modulus: 22,
    orbits: 1,
    initial: "3 6 8 10 11 16 17 21, 1 4 5 7 8 12 13 14, 1 3 4 5 7 13 15 20",
  },
  {
    arms: 22,
    boxes: 11,
    modulus: 21,
    orbits: 1,
    initial: "1 2 3 5 8 9 10 11 13 19 21, 1 3 6 8 9 10 12 13 16 17 18",
  },
  { arms: 23, boxes: 11, modulus: 23, orbits: 1, initial: "0 2 8 9 10 11 13 15 16 19 20" },
  {
    arms: 24,
    boxes: 6,
    modulus: 23,
    orbits: 1,
    initial: "4 6 7 11 21 22, 0 3 4 7 15 17, 3 4 8 17 19 21, 4 10 11 13 16 23",
  },
  {
    arms: 24,
    boxes: 8,
    modulus: 23,
    orbits: 1,
    initial: "5 7 10 12 14 15 16 18, 0 6 7 12 15 16 18 22, 2 4 5 8 13 17 18 23",
  },
  {
    arms: 24,
    boxes: 12,
    modulus: 23,
    orbits: 1,
    initial: "0 2 6 7 9 10 12 13 18 19 21 23, 1 2 3 4 6 7 10 11 12 19 20 22",
  },
];
