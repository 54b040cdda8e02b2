import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import { enrolmentsOf } from "@/lib/data/enrolments";
import { type OwnBoxGrowth, ownGrowth } from "@/lib/data/my-things";
import type { PoolResult } from "@/shared/schemas/pool";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { ClimateGroup, ClimateGrouping } from "@/shared/vocabulary/climate";
import type { TakeClass } from "@/shared/vocabulary/growth";
import { readResults, readTrial } from "../read-trials";

/** One recipe of one's own boxes beside everyone's in the same climate group. */
export interface RecipeComparison {
  readonly arm: string;
  readonly content: VariantContent;
  readonly own: readonly { readonly code: string; readonly take: TakeClass | null }[];
  /** Mean growth over growers with its interval; null where it is withheld or rests on too little. */
  readonly everyone: {
    readonly mean: number;
    readonly lower: number | null;
    readonly upper: number | null;
  } | null;
}

export interface TrialComparison {
  readonly slug: string;
  readonly title: string;
  /** The last day by the plan, `YYYY-MM-DD`. */
  readonly endsOn: string;
  /** Codes of one's own boxes that nothing is recorded of yet. */
  readonly pending: readonly string[];
  readonly results:
    | { readonly state: "hidden" | "on-its-way" }
    | {
        readonly state: "out";
        readonly interim: boolean;
        /** Of the intervals, 0–1. */
        readonly level: number;
        readonly groups: readonly {
          readonly group: Pick<ClimateGroup, "code" | "classes">;
          readonly recipes: readonly RecipeComparison[];
        }[];
      };
}

/**
 * The actor's own boxes beside everyone's, for each trial in which they have any. Everyone's are the published
 * figures, by the rule of `readResults`: after the close, or at an interim look with no box of theirs pending.
 */
export async function ownComparisons(tx: Transaction, actor: Actor): Promise<TrialComparison[]> {
  const boxes = await ownGrowth(tx, actor.growerId);
  const comparisons: TrialComparison[] = [];
  for (const { trial } of await enrolmentsOf(tx, actor.householdId)) {
    const own = boxes.filter(({ trialId }) => trialId === trial.id);
    if (own.length === 0) continue;
    const results = await readResults((await readTrial(trial.slug, tx))!, tx, actor);
    comparisons.push({
      slug: trial.slug,
      title: trial.title,
      endsOn: (trial.amendedEndsOn ?? trial.endsOn).toISOString().slice(0, 10),
      pending: own
        .filter(({ pending }) => pending)
        .map(({ code }) => code)
        .sort(),
      results: results.state === "out" ? besideEveryone(own, results) : results,
    });
  }
  return comparisons;
}

function besideEveryone(
  own: readonly OwnBoxGrowth[],
  { result, grouping }: { readonly result: PoolResult; readonly grouping: ClimateGrouping },
) {
  // A release may have joined the group of a box with others.
  const groupOf = (band: string) =>
    grouping.find(({ code }) => code.split("+").includes(band)) ?? { code: band, classes: [] };
  const groups = new Map(own.map(({ band }) => [groupOf(band).code, groupOf(band)] as const));
  return {
    state: "out" as const,
    interim: result.interim !== null,
    level: result.level,
    groups: [...groups.values()].map((group) => ({
      group,
      recipes: recipesOf(
        own.filter(({ band }) => groupOf(band).code === group.code),
        result.cells.filter(({ band }) => band === group.code),
      ),
    })),
  };
}

function recipesOf(boxes: readonly OwnBoxGrowth[], cells: PoolResult["cells"]): RecipeComparison[] {
  const arms = new Map(boxes.map(({ arm, content }) => [arm, content]));
  return [...arms].map(([arm, content]) => {
    const mean = cells.find((cell) => cell.arm === arm)?.mean;
    return {
      arm,
      content,
      own: boxes.filter((box) => box.arm === arm).map(({ code, take }) => ({ code, take })),
      everyone: mean?.estimate == null ? null : { mean: mean.estimate, lower: mean.lower, upper: mean.upper },
    };
  });
}
