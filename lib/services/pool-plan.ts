import type { PooledTrial } from "@/lib/data/pool-plan";
import { spendingLooks } from "@/lib/engine/statistics/alpha-spending";
import type { ArmFactors } from "@/lib/engine/statistics/analysis-plan";
import type { PoolOptions } from "@/lib/engine/statistics/pool-columns";
import { moistureOf } from "@/lib/services/growing/variants";
import type { InterimLook } from "@/shared/schemas/pool";
import type { VariantContent } from "@/shared/schemas/protocol-variant";

/**
 * How a trial's plan has its boxes analysed, at the level its looks leave.
 * @param isShown whether somebody will see the result: what another would never look at isn't worked out again and
 *   again while a trial is open
 */
export function poolOptions({ plan, arms }: PooledTrial, level: number, isShown: boolean): PoolOptions {
  const primary = "form" in plan ? plan.primaryComparison : null;
  const reference = primary?.kind === "against-reference" ? primary.arm : null;
  return {
    level,
    margin: "form" in plan ? plan.margin : null,
    primary: primary && { kind: primary.kind, arm: reference },
    reference,
    minimum: plan.minimum,
    factors: new Map(arms.map(({ code, content }) => [code, factorsOf(content)])),
    sensitivity: isShown,
    byGrower: isShown,
  };
}

function factorsOf(content: VariantContent): ArmFactors {
  const moisture = moistureOf(content);
  return {
    grain: content.form === "whole" ? content.grain : `${content.grain} ${content.form}`,
    ratio: `${content.waterToGrain} ${content.ratioBasis}`,
    minutes: `${content.cookMethod} ${content.cookMinutes}`,
    moisturePercent: moisture && Math.round(1000 * moisture.moisture) / 10,
  };
}

const ALPHA = 0.05;

/** The level of a look at this share of the information, after the looks before it. */
export function levelAt(fraction: number, earlier: readonly number[]): number {
  if (earlier.length === 0 && fraction >= 1) return 1 - ALPHA;
  return spendingLooks([...earlier, fraction], ALPHA).at(-1)!.level;
}

/**
 * The look that is due in an open trial, or null: the plan's looks are spread evenly over the information, so that
 * the k-th of K is due from k/K on, and the last is the final result. Information is counted in measured boxes
 * where the plan says how many it is for, else in days.
 */
export function lookDue(
  { plan, openedAt, ends }: PooledTrial,
  {
    measured,
    taken,
    now,
  }: { readonly measured: number; readonly taken: readonly number[]; readonly now: Date },
): InterimLook | null {
  if (!("form" in plan) || plan.looks.count < 2) return null;
  const { count: looks } = plan.looks;
  const size = plan.sampleSize;
  const planned = size
    ? size.growersPerGroup * size.setsPerGrower * size.boxesPerSet * plan.climateGrouping.length
    : null;
  const boxes = ends.endsAtBoxes ?? planned;
  const from = openedAt.getTime();
  const fraction =
    boxes === null ? (now.getTime() - from) / (Date.parse(ends.endsOn) - from) : measured / boxes;
  const look = Math.min(looks - 1, Math.floor(fraction * looks));
  if (look <= taken.length || fraction >= 1 || fraction <= (taken.at(-1) ?? 0)) return null;
  return { look, looks, fraction, by: boxes === null ? "days" : "boxes" };
}
