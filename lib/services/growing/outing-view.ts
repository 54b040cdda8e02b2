import type { Actor } from "@/lib/auth/actor";
import { type BoxEventRow, standingEvents } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import { drawsOfHousehold, findOwnDraw, ledgerEntryOf } from "@/lib/data/draws";
import { type GradeRow, standingGrades } from "@/lib/data/grades";
import { findOwnOuting, findTrialRules, type TrialRules } from "@/lib/data/outings";
import { cookableArms } from "@/lib/engine/design/draw";
import { receiptOf } from "@/lib/engine/design/ledger";
import { type BoxAmounts, type BoxFill, cookedVolumeMl } from "@/lib/engine/grain/cooking-amounts";
import { type GrainToBuy, mostGrainBeforeDraw, shoppingList } from "@/lib/engine/grain/shopping-list";
import { GRAIN_FIGURES } from "@/lib/reference/grains";
import type { DrawReceipt } from "@/shared/schemas/draw";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { SiteClimateRecord } from "@/shared/schemas/site-climate";
import type { GrainId } from "@/shared/vocabulary/grain";
import { type Due, dueOf, readinessIn } from "./due";
import { type FetchDay, fetchDayOf, stagedDaysOf } from "./fetch-day";
import { type ReturnedSet, returnedIn, returnsNext } from "./returned-set";

export interface BoxView {
  readonly id: string;
  readonly position: number;
  readonly code: string;
  readonly events: readonly BoxEventRow[];
  readonly grade: Pick<GradeRow, "revision" | "take" | "cleanTake" | "measures"> | null;
  /** What was drawn for it; null before the draw. */
  readonly recipe: { readonly variantId: string; readonly content: VariantContent } | null;
}

export interface OutingView {
  readonly id: string;
  readonly code: string;
  readonly trial: Pick<TrialRules, "id" | "slug" | "title" | "status">;
  readonly siteName: string | null;
  /** `YYYY-MM-DD` */
  readonly day: string;
  readonly status: string;
  readonly grainsAtHand: readonly GrainId[];
  readonly boxVolumeMl: number;
  readonly boxes: readonly BoxView[];
  readonly due: Due;
  /** When to fetch by the plan's rule; null where growth decides, and before a day is drawn. */
  readonly fetchDay: FetchDay | null;
  /** Before the draw: the days of which chance picks one. */
  readonly stagedDays: readonly number[];
  /** The set given up earlier whose recipes come back in this one. */
  readonly returned: ReturnedSet | null;
  /** Days to readiness in the month of the planned day, as a guide; null where unknown or too cold. */
  readonly readiness: {
    readonly meanC: number;
    readonly earliestDay: number;
    readonly likelyDay: number;
  } | null;
  /** Before the draw: the most of each grain any draw could ask for. Null where a recipe can't be weighed. */
  readonly mostGrain: readonly GrainToBuy[] | null;
  /** After the draw, by variant; a recipe that can't be weighed is absent. */
  readonly amounts: ReadonlyMap<string, { readonly boxes: number; readonly perBox: BoxAmounts }>;
  readonly receipt: DrawReceipt | null;
}

/** A set of the actor's boxes with all its page shows; null when there is none such or it is another's. */
export async function outingView(tx: Transaction, actor: Actor, id: string): Promise<OutingView | null> {
  const outing = await findOwnOuting(tx, actor.growerId, id);
  const trial = outing && (await findTrialRules(tx, outing.trialId));
  if (!outing || !trial) return null;
  const boxIds = outing.boxes.map((box) => box.id);
  const events = await standingEvents(tx, boxIds);
  const grades = new Map(
    (await standingGrades(tx, actor.growerId, boxIds)).map((grade) => [grade.boxId, grade]),
  );
  const draw = await findOwnDraw(tx, actor.growerId, id);
  const household = await drawsOfHousehold(tx, outing.enrolmentId);
  const armCodes = trial.arms.map((arm) => arm.code);
  const fetchDay = fetchDayOf(trial.plan, draw?.fetchAfterDays ?? null);
  const fill: BoxFill = {
    innerLengthCm: Number(outing.innerLengthCm),
    innerWidthCm: Number(outing.innerWidthCm),
    grainDepthCm: Number(outing.grainDepthCm),
  };
  const recipes = new Map(
    draw?.allocations.map(({ boxId, arm }) => {
      const content = arm.variant.content as unknown as VariantContent;
      return [boxId, { variantId: arm.variantId, content }];
    }),
  );
  const boxes = outing.boxes.map((box): BoxView => {
    const { id: boxId, position, code } = box;
    return {
      id: boxId,
      position,
      code,
      events: events.filter((event) => event.boxId === boxId),
      grade: grades.get(boxId) ?? null,
      recipe: recipes.get(boxId) ?? null,
    };
  });
  const monthlyMeanC =
    (outing.site.place?.climate as unknown as SiteClimateRecord | undefined)?.monthlyMeanC ?? null;
  return {
    id,
    code: outing.code,
    trial: { id: trial.id, slug: trial.slug, title: trial.title, status: trial.status },
    siteName: outing.site.place?.name ?? null,
    day: outing.day.toISOString().slice(0, 10),
    status: outing.status,
    grainsAtHand: outing.grainsAtHand as GrainId[],
    boxVolumeMl: cookedVolumeMl(fill),
    boxes,
    due: dueOf({
      status: outing.status,
      monthlyMeanC,
      fetchAfterDays: fetchDay?.afterDays ?? null,
      boxes: boxes.map((box) => ({ ...box, graded: box.grade !== null })),
    }),
    fetchDay,
    stagedDays: draw ? [] : stagedDaysOf(trial.plan),
    returned: draw ? returnedIn(household, armCodes, id) : returnsNext(household, armCodes),
    readiness: readinessIn(outing.day.getUTCMonth(), monthlyMeanC),
    mostGrain: draw ? null : mostGrain(trial, outing.grainsAtHand, fill, boxes.length),
    amounts: amountsByVariant(boxes, fill),
    receipt: draw && receiptFrom(draw),
  };
}

/**
 * One recipe comes up at most ⌈boxes ÷ recipes that can be cooked⌉ times: the draw takes whole rounds first, also
 * where recipes of an earlier set come back.
 */
function mostGrain(
  trial: TrialRules,
  grainsAtHand: readonly string[],
  fill: BoxFill,
  boxes: number,
): readonly GrainToBuy[] | null {
  const candidates = cookableArms(trial.arms, grainsAtHand).map(({ variantId, content }) => ({
    variantId,
    content,
    figures: GRAIN_FIGURES[content.grain],
  }));
  if (candidates.length === 0) return null;
  const most = mostGrainBeforeDraw(candidates, fill, boxes, Math.ceil(boxes / candidates.length));
  return most.ok ? most.grains : null;
}

function amountsByVariant(boxes: readonly BoxView[], fill: BoxFill): OutingView["amounts"] {
  const amounts = new Map<string, { boxes: number; perBox: BoxAmounts }>();
  const variants = new Map<string, VariantContent[]>();
  for (const { recipe } of boxes) {
    if (recipe) variants.set(recipe.variantId, [...(variants.get(recipe.variantId) ?? []), recipe.content]);
  }
  // One list per recipe, so that one that can't be weighed does not take the others' amounts away.
  for (const [variantId, contents] of variants) {
    const recipes = contents.map((content) => ({
      variantId,
      content,
      figures: GRAIN_FIGURES[content.grain],
    }));
    const result = shoppingList(recipes, fill);
    const batch = result.ok ? result.list.batches[0] : undefined;
    if (batch) amounts.set(variantId, { boxes: batch.boxes, perBox: batch.perBox });
  }
  return amounts;
}

function receiptFrom(draw: NonNullable<Awaited<ReturnType<typeof findOwnDraw>>>): DrawReceipt {
  const { trialId, trial } = draw;
  return receiptOf({ trialId, planHash: trial.planHash!, seal: trial.seal! }, ledgerEntryOf(draw));
}
