import type { ReactNode } from "react";
import type { StoredPlan, TrialPlan } from "@/shared/schemas/plan";
import type { ClimateGrouping } from "@/shared/vocabulary/climate";
import { dayWords, decimal, percent, whole } from "../format";
import { planMessages as words } from "../messages/en/plan";
import { vocabularyMessages } from "../messages/en/vocabulary";
import { type Fact, Facts } from "./facts";

type WithoutArms<Plan> = Omit<Plan, "arms" | "climateGrouping"> & {
  readonly climateGrouping: ClimateGrouping;
};
type PlanNow = WithoutArms<TrialPlan>;
/** Any plan but for its arms: a draft's may still be missing. */
export type ShownPlan = PlanNow | WithoutArms<Exclude<StoredPlan, TrialPlan>>;

interface Props {
  readonly plan: ShownPlan;
  /** What a recipe is called, by its code. */
  readonly recipeName: (code: string) => string;
  /** Where an amendment moved the end, what stands now. */
  readonly endsNow?: { readonly endsOn: string; readonly endsAtBoxes: number | null };
  /** Further facts at the end, such as the day it opened. */
  readonly more?: readonly Fact[];
}

/** A whole plan in words, from what is asked to when it ends. */
export function PlanSheet({ plan, recipeName, endsNow, more = [] }: Props) {
  const now = "form" in plan ? plan : null;
  return (
    <>
      {now ? null : <p className="mb-4 max-w-[44em]">{words.older}</p>}
      <div className="gap-x-12 lg:columns-2">
        <Part title={words.asks} facts={asked(plan, now)} />
        {now ? <Part title={words.decides} facts={decided(now, recipeName)} /> : null}
        <Part title={words.boxes} facts={boxes(plan, now)} />
        <Part title={words.ends} facts={[...ends(plan, now, endsNow), ...more]} />
      </div>
    </>
  );
}

function Part({ title, facts }: { title: string; facts: readonly Fact[] }) {
  return (
    <section className="break-inside-avoid">
      <h3 className="mb-1">{title}</h3>
      <Facts items={facts} prose />
    </section>
  );
}

function asked(plan: ShownPlan, now: PlanNow | null): Fact[] {
  return [
    { label: words.question, value: plan.question },
    ...(now ? [{ label: words.estimand, value: words.estimandWords }] : []),
    { label: words.outcome, value: words.outcomeWords },
    {
      label: words.rubric,
      value: words.rubrics[plan.rubricVersion] ?? <code>{plan.rubricVersion}</code>,
    },
    {
      label: words.groups,
      value: (
        <Lines
          lines={plan.climateGrouping.map((group) => (
            <>
              {vocabularyMessages.climateGroupName(group)}{" "}
              <span className="font-normal text-quiet">{group.classes.join(", ")}</span>
            </>
          ))}
        />
      ),
    },
  ];
}

function decided(plan: PlanNow, recipeName: (code: string) => string): Fact[] {
  const { alpha } = plan;
  const margin = decimal(plan.margin, 2);
  return [
    { label: words.comparison, value: comparisonWords(plan, recipeName) },
    { label: words.margin, value: words.marginWords(margin) },
    { label: words.verdicts, value: <Lines lines={words.verdictWords(margin)} /> },
    { label: words.level, value: words.levelWords(percent(alpha), percent(1 - alpha)) },
    { label: words.looks, value: words.looksWords(plan.looks.count) },
  ];
}

function boxes(plan: ShownPlan, now: PlanNow | null): Fact[] {
  const { boxesPerSet, minimum } = plan;
  return [
    { label: words.boxesPerSet, value: words.boxesRange(boxesPerSet.min, boxesPerSet.max) },
    ...(now ? [{ label: words.sampleSize, value: <SampleSize basis={now.sampleSize} /> }] : []),
    { label: words.minimum, value: words.minimumWords(minimum.boxesPerCell, minimum.growersPerCell) },
    ...(now
      ? [
          { label: words.meetAgain, value: meetAgainWords(now) },
          { label: words.fetch, value: fetchWords(now) },
          { label: words.boxLimits, value: boxLimitWords(now) },
        ]
      : []),
    { label: words.losses, value: words.lossesWords },
    ...(now ? [{ label: words.otherwise, value: words.otherwiseWords }] : []),
  ];
}

export function comparisonWords(
  { primaryComparison: primary }: Pick<TrialPlan, "primaryComparison">,
  recipeName: (code: string) => string,
): string {
  return primary.kind === "against-reference"
    ? words.comparisons[primary.kind](recipeName(primary.arm))
    : words.comparisons[primary.kind];
}

export function meetAgainWords({ meetAgainShare }: Pick<TrialPlan, "meetAgainShare">): string {
  return meetAgainShare > 0 ? words.meetAgainWords(percent(meetAgainShare)) : words.meetAgainNone;
}

export function fetchWords({ fetchRule }: Pick<TrialPlan, "fetchRule">): string {
  return words.fetchRules[fetchRule.kind](fetchDays(fetchRule));
}

export function boxLimitWords({ boxLimits: limits }: Pick<TrialPlan, "boxLimits">): string {
  if (!limits) return words.boxLimitsNone;
  const { kinds, grainDepthCm, minSpacingCm } = limits;
  return [
    ...(kinds ? [words.boxKinds(kinds.map((kind) => vocabularyMessages.boxKind[kind]).join(", "))] : []),
    words.boxDepth(String(grainDepthCm.min), String(grainDepthCm.max)),
    ...(minSpacingCm === null ? [] : [words.boxSpacing(minSpacingCm)]),
  ].join("; ");
}

/** The days a fetch rule names, in order; none where growth decides. */
export function fetchDays(rule: TrialPlan["fetchRule"]): number[] {
  if (rule.kind === "by-growth") return [];
  return [rule.afterDays].flat().sort((a, b) => a - b);
}

/** How many growers were planned for, with the assumptions beneath. */
export function SampleSize({ basis }: { basis: TrialPlan["sampleSize"] }) {
  if (!basis) return words.sampleSizeNone;
  const { sd } = basis;
  const power =
    basis.powerError === null
      ? percent(basis.power)
      : words.powerWithError(percent(basis.power), percent(basis.powerError));
  const deviations = words.deviations({
    grower: decimal(sd.grower, 2),
    growerArm: decimal(sd.growerArm, 2),
    outing: decimal(sd.outing, 2),
    residual: decimal(sd.residual, 2),
  });
  return (
    <>
      {words.sampleSizeWords({
        growers: basis.growersPerGroup,
        sets: basis.setsPerGrower,
        boxes: basis.boxesPerSet,
        recipes: basis.recipes,
        difference: decimal(basis.difference, 2),
        power,
        alpha: percent(basis.alpha),
      })}
      <span className="block font-normal text-quiet">
        {words.sampleSizeFrom[basis.sdFrom](deviations)} {words.methodIs(basis.method)}
      </span>
    </>
  );
}

function ends(plan: ShownPlan, now: PlanNow | null, endsNow: Props["endsNow"]): Fact[] {
  const lastDay = dayWords(plan.endsOn);
  const atBoxes = now?.endsAtBoxes == null ? null : whole(now.endsAtBoxes);
  const atBoxesNow = endsNow?.endsAtBoxes == null ? atBoxes : whole(endsNow.endsAtBoxes);
  return [
    {
      label: words.lastDay,
      value:
        endsNow && endsNow.endsOn !== plan.endsOn ? words.now(lastDay, dayWords(endsNow.endsOn)) : lastDay,
    },
    ...(atBoxesNow
      ? [
          {
            label: words.endsAtBoxes,
            value: words.endsAtBoxesWords(
              !atBoxes || atBoxes === atBoxesNow ? atBoxesNow : words.now(atBoxes, atBoxesNow),
            ),
          },
        ]
      : []),
    {
      label: words.early,
      value: words.earlyCloseRule[plan.earlyCloseRule] ?? <code>{plan.earlyCloseRule}</code>,
    },
  ];
}

function Lines({ lines }: { lines: readonly ReactNode[] }) {
  return (
    <ul>
      {lines.map((line, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: lines are drawn once, in order
        <li key={at}>{line}</li>
      ))}
    </ul>
  );
}
