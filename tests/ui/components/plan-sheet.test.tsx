import { renderToStaticMarkup } from "react-dom/server";
import { describe, expect, it } from "vitest";
import { DEFAULT_PLAN_CHOICES, promisesOf } from "@/lib/services/lead/plan";
import { PlanSheet, type ShownPlan } from "@/lib/ui/components/plan-sheet";

/** All figures here are invented. */
const draft = {
  question: "Firm or soft?",
  endsOn: "2027-03-01",
  grouping: [{ code: "dry", classes: ["BSh", "BSk"] as const }],
  boxesMin: 2,
  boxesMax: 4,
};

function text(plan: ShownPlan, endsNow?: { endsOn: string; endsAtBoxes: number | null }): string {
  return renderToStaticMarkup(
    <PlanSheet plan={plan} recipeName={(code) => `recipe ${code}`} endsNow={endsNow} />,
  )
    .replaceAll(/<[^>]+>/g, " ")
    .replaceAll("\u00a0", " ")
    .replaceAll(/\s+/g, " ");
}

const plan = promisesOf({
  ...draft,
  choices: {
    ...DEFAULT_PLAN_CHOICES,
    primaryComparison: { kind: "against-reference", arm: "B" },
    looks: { count: 3, spending: "obrien-fleming-type" },
    endsAtBoxes: 1200,
    fetchRule: { kind: "staged", afterDays: [7, 4, 5] },
    sampleSize: {
      difference: 0.75,
      recipes: 6,
      growersPerGroup: 34,
      setsPerGrower: 2,
      boxesPerSet: 4,
      sd: { grower: 0.5, growerArm: 0.4, outing: 0.3, residual: 1 },
      sdFrom: "earlier-trial",
      alpha: 0.05,
      power: 0.804,
      powerError: 0.012,
      method: "simulated-arrivals",
    },
  },
});

describe("a plan in words", () => {
  it("says all it promises", () => {
    const shown = text(plan);
    for (const words of [
      "Firm or soft?",
      "every recipe with recipe B, within a climate group",
      "less than 0.50 apart",
      "equally good: it lies between −0.50 and 0.50",
      "5 % two-sided for the main comparison; intervals of 95 %",
      "3, the one at the end included",
      "34 growers in a climate group with 2 sets of 4 boxes each, among 6 recipes",
      "with a chance of 80 % ± 1 %",
      "from an earlier trial: between growers 0.50, grower by recipe 0.40",
      "5 boxes of 3 growers for each recipe",
      "20 % of a grower’s later sets",
      "4, 5 or 7 days after they were set out",
      "1 March 2027",
      "once 1,200 boxes have been recorded",
      "the lead may close before the end",
    ]) {
      expect(shown).toContain(words);
    }
  });

  it("shows the end that an amendment put in force beside the one promised, also where none was by boxes", () => {
    const shown = text(plan, { endsOn: "2027-05-01", endsAtBoxes: 1500 });
    expect(shown).toContain("1 March 2027 (amended: 1 May 2027)");
    expect(shown).toContain("once 1,200 (amended: 1,500) boxes");
    const byDayOnly = { ...plan, endsAtBoxes: null };
    expect(text(byDayOnly, { endsOn: "2027-03-01", endsAtBoxes: 900 })).toContain("once 900 boxes");
  });

  it("shows of an older plan what it holds, and says that the rest was not fixed", () => {
    const {
      question,
      primaryOutcome,
      endsOn,
      climateGrouping,
      boxesPerSet,
      minimum,
      rubricVersion,
      lossHandling,
    } = plan;
    const older = {
      question,
      primaryOutcome,
      endsOn,
      climateGrouping,
      boxesPerSet,
      minimum,
      rubricVersion,
      lossHandling,
      earlyCloseRule: "lead-may-close-marked",
    };
    const shown = text(older);
    expect(shown).toContain("What isn’t listed was not fixed beforehand.");
    expect(shown).toContain("5 boxes of 3 growers for each recipe");
    for (const later of [
      "Main comparison",
      "Looks at results",
      "How many growers",
      "When boxes are fetched",
    ]) {
      expect(shown).not.toContain(later);
    }
  });
});
