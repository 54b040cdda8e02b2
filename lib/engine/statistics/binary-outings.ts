/** One outing's boxes with a yes or no (a clean take, a loss); boxes whose answer isn't known are left out. */
export interface BinaryOuting {
  readonly grower: number;
  /** Arm of each box, a number from 0. */
  readonly arms: readonly number[];
  /** 1 for yes, 0 for no, box by box. */
  readonly events: readonly number[];
}

/** Boxes as columns of equal length; `event` is 1, 0, or NaN where it isn't known. */
export interface BinaryColumns {
  readonly grower: ArrayLike<number>;
  readonly outing: ArrayLike<number>;
  readonly arm: ArrayLike<number>;
  readonly event: ArrayLike<number>;
}

/** The known boxes by outing, in the order outings first appear. Throws when an outing has two growers. */
export function binaryOutings({ grower, outing, arm, event }: BinaryColumns): BinaryOuting[] {
  const outings = new Map<number, { grower: number; arms: number[]; events: number[] }>();
  for (let i = 0; i < event.length; i++) {
    if (Number.isNaN(event[i]!)) continue;
    let own = outings.get(outing[i]!);
    if (!own) {
      own = { grower: grower[i]!, arms: [], events: [] };
      outings.set(outing[i]!, own);
    }
    if (own.grower !== grower[i]!)
      throw new RangeError(`Outing ${outing[i]} has two growers; an outing belongs to one.`);
    own.arms.push(arm[i]!);
    own.events.push(event[i]!);
  }
  return [...outings.values()];
}
