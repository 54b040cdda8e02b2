import type { PlannerRequest } from "./planner";

export const DESIGN_KINDS = ["complete", "balanced", "resolvable", "cyclic", "optimised"] as const;
export type DesignKind = (typeof DESIGN_KINDS)[number];

/** What limits efficiency from above: what one set can tell of contrasts, or that recipes are used unequally often. */
export type EfficiencyBound = "WITHIN_SETS" | "UNEQUAL_REPLICATION";

/** A chance, and its Monte Carlo standard error with the number of runs when it was simulated. */
export interface SimulatedChance {
  readonly power: number;
  readonly monteCarloError: number;
  readonly runs: number;
}

/** Growers and boxes that reach a power; null in place of it: not within 100,000 growers. */
export interface Needed {
  readonly power: 0.8 | 0.9;
  readonly growers: number;
  readonly boxes: number;
}

/** What a design can find about mean growth in one group. */
export interface GrowthFigures {
  /** Mean over all pairs, and of the worst pair: variance of the estimated difference of two recipes' mean growth. */
  readonly variance: number;
  readonly worstVariance: number;
  /** The growers that would give the same variance if each met every recipe in every set of theirs. */
  readonly completeGrowers: number;
  /** Degrees of freedom of the t test and interval of one pair. */
  readonly df: number;
  /** Chance that the test of one pair finds the stated difference. */
  readonly power: number;
  readonly worstPairPower: number;
  /**
   * The same by simulated arrivals and a test that is robust against unequal growers; null for complete sets, for all
   * groups together and for designs far down the list.
   */
  readonly simulated: SimulatedChance | null;
  /** Chance that the F test of all recipes finds that two differ so much, the others between them. */
  readonly anyDifference: { readonly power: number; readonly df1: number; readonly df2: number };
  /** Chance that the interval of two equal recipes lies within ± margin. */
  readonly equivalencePower: number;
  /** Half the expected width of the interval of one difference; null without a degree of freedom. */
  readonly halfWidth: number | null;
  readonly needed: readonly (Needed | null)[];
  readonly equivalenceNeeded: readonly (Needed | null)[];
  /** For a factorial: chance to find the stated difference between two levels of one factor. */
  readonly factors: readonly { readonly factor: PlannerFactor; readonly power: number }[];
}
export type PlannerFactor = "grain" | "waterRatio" | "minutes";

export interface CleanTakeFigures extends SimulatedChance {
  readonly needed: readonly (Needed | null)[];
}

/** One point of the curve of power against growers, everything else kept. */
export interface CurvePoint {
  readonly growers: number;
  readonly difference: number;
  readonly anyDifference: number;
  readonly equivalence: number;
  readonly cleanTake: number | null;
}

/** Whether grower × recipe and the residual can be told apart. */
export interface Separability {
  /** Share of growers with a recipe in more than one of their sets. */
  readonly growersMeetingAgain: number;
  /** Standard error of the variance of grower × recipe over that variance and the residual's; null: not estimable. */
  readonly error: number | null;
  /** Whether that is at most a quarter. */
  readonly separable: boolean;
  /** Share of later sets that must hold a recipe again; 0: it happens by itself; null: not reachable with these sets. */
  readonly shareNeeded: number | null;
}

/** One design in one climate group, or in all of them together. */
export interface PlannerFigures {
  /** null: all groups together, as if recipes did the same everywhere. */
  readonly group: string | null;
  readonly growers: number;
  /** For all groups together the mean. */
  readonly setsPerGrower: number;
  readonly sets: number;
  readonly boxes: number;
  readonly replication: { readonly min: number; readonly mean: number; readonly max: number };
  readonly connected: boolean;
  /** 2/(mean replication × mean pairwise variance), in units of the residual variance; 0 when not connected. */
  readonly efficiency: number;
  readonly efficiencyBound: { readonly value: number; readonly by: EfficiencyBound };
  readonly separability: Separability;
  /** null when the design is not connected. */
  readonly growth: GrowthFigures | null;
  /** null when not asked for, not connected, for all groups together and for designs far down the list. */
  readonly cleanTake: CleanTakeFigures | null;
  readonly curve: readonly CurvePoint[];
}

export interface PlannerDesign {
  readonly kind: DesignKind;
  readonly boxesPerSet: number;
  /** Sets after which the design is whole (balanced, or every recipe equally often); null: no such number. */
  readonly period: number | null;
  /** The first sets, as places of arms from 0. */
  readonly firstSets: readonly (readonly number[])[];
  readonly groups: readonly PlannerFigures[];
  /** null when there is one group. */
  readonly together: PlannerFigures | null;
}

/** What follows from the figures; words stand with whoever shows them. `group` as in the figures. */
export type PlannerAdvice =
  /** 80 % is not reached with these arms; with so many it would be. */
  | {
      readonly code: "FEWER_ARMS";
      readonly group: string;
      readonly arms: number;
      readonly growers: number;
      readonly armsThatDo: number;
    }
  /** 80 % is not reached with these growers; with so many it would be, arms kept; null: with none within reach. */
  | {
      readonly code: "MORE_GROWERS";
      readonly group: string;
      readonly growers: number;
      readonly growersThatDo: number | null;
    }
  | { readonly code: "ENOUGH"; readonly group: string; readonly power: number }
  /** The same number of sets spread over more growers. */
  | {
      readonly code: "GROWERS_BEFORE_SETS";
      readonly group: string;
      readonly power: number;
      readonly growersInstead: number;
      readonly setsInstead: number;
      readonly powerInstead: number;
    }
  | {
      readonly code: "MEET_AGAIN";
      readonly group: string;
      readonly share: number;
      readonly planned: number;
    }
  | { readonly code: "NOT_SEPARABLE"; readonly group: string; readonly setsPerGrower: number }
  | {
      readonly code: "NOT_CONNECTED";
      readonly group: string;
      readonly sets: number;
      readonly setsNeeded: number;
    }
  | { readonly code: "FEW_GROWERS"; readonly group: string; readonly growers: number }
  | {
      readonly code: "EQUIVALENCE_FAR";
      readonly group: string;
      readonly margin: number;
      readonly power: number;
      readonly growersThatDo: number | null;
    };

export interface PlannerResult {
  readonly ok: true;
  readonly arms: number;
  readonly level: number;
  readonly difference: number;
  readonly margin: number;
  readonly deviations: PlannerRequest["deviations"];
  readonly deviationsFrom: PlannerRequest["deviationsFrom"];
  readonly seed: string;
  /** Best first: by the mean power over groups. */
  readonly designs: readonly PlannerDesign[];
  /** For the first design. */
  readonly advice: readonly PlannerAdvice[];
  /**
   * Boxes per recipe to find the odds ratio, each box from a grower of its own (Whitehead 1993): the least there can
   * be; null when not asked.
   */
  readonly ordinal: readonly { readonly power: 0.8 | 0.9; readonly boxesPerArm: number }[] | null;
  /** Names the ways the figures were made. */
  readonly methods: {
    readonly difference: "noncentral-t-growers-minus-1";
    readonly anyDifference: "noncentral-F";
    readonly equivalence: "two-one-sided-t";
    readonly cleanTake: "simulated-clustered-t";
  };
}

/** No group has enough sets to join all arms by any design. */
export interface PlannerRefusal {
  readonly ok: false;
  readonly reason: "NO_GROUP_CONNECTED";
  /** In the group with the most sets. */
  readonly sets: number;
  readonly setsNeeded: number;
}

/** A running trial's design as it stands in one climate group; no outcome is read. */
export interface DesignFigures {
  readonly group: string;
  readonly sets: number;
  readonly boxes: number;
  /** By arm in the plan's order. */
  readonly replication: readonly number[];
  /** Places of arms with under half the mean number of boxes. */
  readonly thinArms: readonly number[];
  readonly connected: boolean;
  readonly efficiency: number;
  /** null before the first draw. */
  readonly efficiencyBound: { readonly value: number; readonly by: EfficiencyBound } | null;
  /**
   * Half the expected width of the interval of a mean pairwise difference at the planned end and for the worst
   * pair; null: not connected yet, or one grower.
   */
  readonly halfWidthAtEnd: number | null;
  readonly worstHalfWidthAtEnd: number | null;
  readonly growersAtEnd: number;
  readonly setsAtEnd: number;
}
