import type { Actor } from "@/lib/auth/actor";
import { database, type Transaction } from "@/lib/data/client";
import { findFinalPool, findInterimPool } from "@/lib/data/pool-reading";
import { findReleasedPool } from "@/lib/data/releases";
import {
  type BoxFlow,
  findTrial,
  listTrials,
  type PublicTrialStatus,
  readBoxFlow,
  type TrialArmRow,
  type TrialListRow,
  type TrialRow,
} from "@/lib/data/trials";
import { bandOf } from "@/lib/engine/climate/grouping";
import { type MoisturePrediction, predictMoisture } from "@/lib/engine/grain/moisture";
import { GRAIN_FIGURES } from "@/lib/reference/grains";
import { LEAST_MINIMUM } from "@/shared/schemas/plan";
import type { ClimateGrouping } from "@/shared/vocabulary/climate";
import { heldResults, type NamedResult } from "./held-results";

export const TRIALS_PER_PAGE = 20;

export interface TrialPage {
  readonly trials: readonly TrialListRow[];
  /** Where the next page starts; null on the last. */
  readonly next: string | null;
}

const UUID = /^[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}$/i;

/** One page of the open or the closed trials, newest first. A `before` that is no id starts from the first. */
export async function readTrialPage(
  status: PublicTrialStatus,
  before?: string,
  tx: Transaction = database(),
): Promise<TrialPage> {
  const from = before && UUID.test(before) ? before : undefined;
  const found = await listTrials(tx, { status, before: from, limit: TRIALS_PER_PAGE + 1 });
  const trials = found.slice(0, TRIALS_PER_PAGE);
  return { trials, next: found.length > TRIALS_PER_PAGE ? trials.at(-1)!.id : null };
}

/** A recipe of a trial; `moisture` is null where cups of that grain can't be turned into grams. */
export interface TrialRecipe extends TrialArmRow {
  readonly moisture: MoisturePrediction | null;
}

export interface TrialView extends Omit<TrialRow, "arms"> {
  readonly recipes: readonly TrialRecipe[];
}

/** An opened trial as anyone may see it, or null. One query. */
export async function readTrial(slug: string, tx: Transaction = database()): Promise<TrialView | null> {
  const trial = await findTrial(tx, slug);
  if (!trial) return null;
  const { arms, ...rest } = trial;
  return { ...rest, recipes: arms.map(recipeOf) };
}

function recipeOf(arm: TrialArmRow): TrialRecipe {
  const predicted = predictMoisture(GRAIN_FIGURES[arm.content.grain], arm.content);
  return { ...arm, moisture: predicted.ok ? predicted.prediction : null };
}

export type PublicBoxFlow = Omit<BoxFlow, "households">;

/**
 * How far a trial's boxes have come, or null while they rest on fewer households or boxes than any public figure
 * may. Rounded down to fives: the exact numbers, watched from day to day, would give a single household away.
 */
export async function readPublicBoxFlow(
  trialId: string,
  tx: Transaction = database(),
): Promise<PublicBoxFlow | null> {
  const { households, ...flow } = await readBoxFlow(tx, trialId);
  if (households < LEAST_MINIMUM.growersPerCell || flow.drawn < LEAST_MINIMUM.boxesPerCell) return null;
  const { drawn, cooked, setOut, opened, recorded, lost } = flow;
  return {
    drawn: downToFives(drawn),
    cooked: downToFives(cooked),
    setOut: downToFives(setOut),
    opened: downToFives(opened),
    recorded: downToFives(recorded),
    lost: downToFives(lost),
  };
}

function downToFives(count: number): number {
  return count - (count % 5);
}

export type TrialResults =
  | { readonly state: "hidden" }
  | { readonly state: "on-its-way" }
  | (NamedResult & {
      readonly state: "out";
      readonly computedAt: Date;
      /** Whether something newer is waiting to be worked out. */
      readonly newerWanted: boolean;
      /** The climate groups of its figures: the trial's, or with those joined that a release joins. */
      readonly grouping: ClimateGrouping;
      /** Climate groups of the reader's own places. */
      readonly ownGroups: readonly string[];
    });

/**
 * What a reader may see of a trial's results: what its lead released, else the stored result after its close; before
 * it nothing by recipe, save for growers of the trial without a pending box, who see an interim look. One query, the
 * reader's places included.
 */
export async function readResults(
  trial: Pick<TrialView, "id" | "status" | "grouping" | "releaseHash" | "joinedGroups">,
  tx: Transaction = database(),
  reader: Pick<Actor, "householdId"> | null = null,
): Promise<TrialResults> {
  const held = heldResults("published");
  const householdId = reader?.householdId ?? null;
  const pool = trial.releaseHash
    ? await findReleasedPool(tx, trial.id, held.ids, householdId)
    : trial.status === "closed"
      ? await findFinalPool(tx, trial.id, held.ids, householdId)
      : householdId && (await findInterimPool(tx, trial.id, held.ids, householdId));
  if (!pool) return { state: trial.status === "closed" ? "on-its-way" : "hidden" };
  const { resultId, published, computedAt, newerWanted, ownClasses } = pool;
  const grouping = releasedGrouping(trial);
  const ownGroups = ownClasses.flatMap((own) => {
    const group = bandOf(own, grouping);
    return group.ok ? [group.band] : [];
  });
  return { state: "out", ...held.named(resultId, published), grouping, computedAt, newerWanted, ownGroups };
}

/** A trial's climate groups, those that its release joins as one. */
export function releasedGrouping({
  grouping,
  joinedGroups,
}: Pick<TrialView, "grouping" | "joinedGroups">): ClimateGrouping {
  if (!joinedGroups) return grouping;
  const { code, of } = joinedGroups;
  const [joined, others] = [true, false].map((is) =>
    grouping.filter((group) => of.includes(group.code) === is),
  );
  return [...others!, { code, classes: joined!.flatMap(({ classes }) => classes) }];
}
