import type { Recorder } from "@/lib/auth/actor";
import { type BoxEventRow, standingEvents } from "@/lib/data/boxes";
import type { Transaction } from "@/lib/data/client";
import { drawsOfHousehold, findOwnDraw, ledgerEntryOf } from "@/lib/data/draws";
import { type GradeRow, standingGrades } from "@/lib/data/grades";
import {
  drawnNotSetOut,
  findOwnOuting,
  findTrialRules,
  type OwnOuting,
  type TrialRules,
} from "@/lib/data/outings";
import { pausesOf, type TrialPause } from "@/lib/data/pauses";
import { findOwnPin, type PinRow } from "@/lib/data/pins";
import { receiptOf } from "@/lib/engine/design/ledger";
import { cookedVolumeMl } from "@/lib/engine/grain/cooking-amounts";
import type { GrainToBuy } from "@/lib/engine/grain/shopping-list";
import type { DrawReceipt } from "@/shared/schemas/draw";
import type { OutingInput } from "@/shared/schemas/outing";
import type { BoxLimits } from "@/shared/schemas/plan";
import type { VariantContent } from "@/shared/schemas/protocol-variant";
import type { SiteClimateRecord } from "@/shared/schemas/site-climate";
import { MOST_SETS_NOT_SET_OUT } from "@/shared/vocabulary/box";
import type { GrainId } from "@/shared/vocabulary/grain";
import { boxLimitsOf } from "./box-limits";
import { type BoxStep, type Due, dueOf, readinessIn, stepOf } from "./due";
import { type FetchDay, fetchDayOf, stagedDaysOf } from "./fetch-day";
import { type AmountsByVariant, amountsByVariant, type BoxRecipe, mostGrain } from "./outing-amounts";
import { type ReturnedSet, returnedIn, returnsNext } from "./returned-set";

export interface BoxView {
  readonly id: string;
  readonly position: number;
  readonly code: string;
  readonly events: readonly BoxEventRow[];
  readonly grade: Pick<GradeRow, "revision" | "take" | "cleanTake" | "measures" | "viaHelper"> | null;
  /** What was drawn for it; null before the draw. */
  readonly recipe: BoxRecipe | null;
  /** What it waits for once it is drawn. */
  readonly step: BoxStep;
}

/** How a set was planned: one kind of box, its inner measures in cm, and what covers and guards it. */
export type BoxPlan = Pick<
  OutingInput,
  | "boxKind"
  | "innerLengthCm"
  | "innerWidthCm"
  | "innerHeightCm"
  | "grainDepthCm"
  | "cover"
  | "coverClear"
  | "guard"
>;

export interface OutingView {
  readonly id: string;
  readonly code: string;
  /** Counts the changes of its plan; a change says which one it was made from. */
  readonly version: number;
  readonly trial: Pick<TrialRules, "id" | "slug" | "title" | "status"> & { readonly endsOn: string };
  readonly siteId: string;
  readonly siteName: string | null;
  /** `YYYY-MM-DD` */
  readonly day: string;
  readonly status: string;
  readonly grainsAtHand: readonly GrainId[];
  readonly boxVolumeMl: number;
  readonly plan: BoxPlan;
  readonly limits: BoxLimits | null;
  /** As measured at set-out, cm; null where it wasn't. */
  readonly standing: { readonly sunkCm: number | null; readonly spacingCm: number | null };
  readonly pin: PinRow | null;
  /** Whether the household must set out or give up a set before the next draw. */
  readonly tooManyNotSetOut: boolean;
  /** The pause of its trial that stands. */
  readonly pause: TrialPause | null;
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
  /** After the draw. */
  readonly amounts: AmountsByVariant;
  readonly receipt: DrawReceipt | null;
}

/** A set of the actor's boxes with all its page shows; null when there is none such or it is another's. */
export async function outingView(tx: Transaction, actor: Recorder, id: string): Promise<OutingView | null> {
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
  const pauses = await pausesOf(tx, trial.id);
  const plan = boxPlanOf(outing);
  const recipes = new Map(
    draw?.allocations.map(({ boxId, arm }) => {
      const content = arm.variant.content as unknown as VariantContent;
      return [boxId, { variantId: arm.variantId, content }];
    }),
  );
  const boxes = outing.boxes.map((box): BoxView => {
    const { id: boxId, position, code } = box;
    const told = events.filter((event) => event.boxId === boxId);
    const grade = grades.get(boxId) ?? null;
    const step = stepOf({ graded: grade !== null, events: told });
    return { id: boxId, position, code, events: told, grade, recipe: recipes.get(boxId) ?? null, step };
  });
  const monthlyMeanC =
    (outing.site.place?.climate as unknown as SiteClimateRecord | undefined)?.monthlyMeanC ?? null;
  return {
    id,
    code: outing.code,
    version: outing.version,
    trial: {
      id: trial.id,
      slug: trial.slug,
      title: trial.title,
      status: trial.status,
      endsOn: trial.ends.endsOn,
    },
    pause: pauses.find(({ resumedAt }) => resumedAt === null) ?? null,
    siteId: outing.siteId,
    siteName: outing.site.place?.name ?? null,
    day: outing.day.toISOString().slice(0, 10),
    status: outing.status,
    grainsAtHand: outing.grainsAtHand as GrainId[],
    boxVolumeMl: cookedVolumeMl(plan),
    plan,
    limits: boxLimitsOf(trial.plan),
    standing: { sunkCm: numberOf(outing.sunkCm), spacingCm: outing.spacingCm },
    pin: await findOwnPin(tx, actor.accountId, id),
    tooManyNotSetOut: !draw && (await drawnNotSetOut(tx, outing.enrolmentId)) >= MOST_SETS_NOT_SET_OUT,
    boxes,
    due: dueOf({
      status: outing.status,
      pauses,
      monthlyMeanC,
      fetchAfterDays: fetchDay?.afterDays ?? null,
      boxes: boxes.map((box) => ({ ...box, graded: box.grade !== null })),
    }),
    fetchDay,
    stagedDays: draw ? [] : stagedDaysOf(trial.plan),
    returned: draw ? returnedIn(household, armCodes, id) : returnsNext(household, armCodes),
    readiness: readinessIn(outing.day.getUTCMonth(), monthlyMeanC),
    mostGrain: draw ? null : mostGrain(trial, outing.grainsAtHand, plan, boxes.length),
    amounts: amountsByVariant(boxes, plan),
    receipt: draw && receiptFrom(draw),
  };
}

function receiptFrom(draw: NonNullable<Awaited<ReturnType<typeof findOwnDraw>>>): DrawReceipt {
  const { trialId, trial } = draw;
  return receiptOf({ trialId, planHash: trial.planHash!, seal: trial.seal! }, ledgerEntryOf(draw));
}

function boxPlanOf(outing: OwnOuting): BoxPlan {
  return {
    boxKind: outing.boxKind as BoxPlan["boxKind"],
    innerLengthCm: Number(outing.innerLengthCm),
    innerWidthCm: Number(outing.innerWidthCm),
    innerHeightCm: numberOf(outing.innerHeightCm),
    grainDepthCm: Number(outing.grainDepthCm),
    cover: outing.cover as BoxPlan["cover"],
    coverClear: outing.coverClear,
    guard: outing.guard as BoxPlan["guard"],
  };
}

/** A decimal column's value. */
const numberOf = (value: unknown) => (value === null ? null : Number(value));
