import Link from "next/link";
import { promisesOf } from "@/lib/services/lead/plan";
import type { LeadTrialView } from "@/lib/services/lead/read";
import { Notice } from "@/lib/ui/components/notice";
import { PlanSheet } from "@/lib/ui/components/plan-sheet";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { recipeNames } from "@/lib/ui/recipe-names";
import { ARMS_PER_TRIAL } from "@/shared/schemas/plan";
import { Opening } from "./draft-forms";
import { DraftRecipes } from "./draft-recipes";
import { DraftSteps } from "./draft-steps";
import { FoldedPart } from "./folded-part";

const words = leadMessages.draft;

/** A draft: what it needs before it opens, its recipes, the plan as it would be frozen, and its opening. */
export function Draft({ view }: { view: LeadTrialView }) {
  const { trial, choices, openingFaults } = view;
  const { length: recipes } = trial.arms;
  const [fault] = openingFaults;
  return (
    <>
      <DraftSteps view={view} />
      <FoldedPart
        id="recipes"
        title={words.recipes}
        says={words.steps.recipes.says(recipes)}
        startsOpen={recipes < ARMS_PER_TRIAL.min}
      >
        <DraftRecipes view={view} />
      </FoldedPart>
      <FoldedPart id="plan" title={words.planTitle} says={words.planLead} startsOpen={false}>
        <PlanSheet plan={promisesOf({ ...trial, choices })} recipeName={recipeNames(trial.arms)} />
      </FoldedPart>
      <section id="open" className="border-t-2 border-line pt-2.5">
        <h2 className="mb-2">{words.open}</h2>
        <p className="mb-4 max-w-[44em]">{words.openLead}</p>
        {fault ? <Notice kind="info">{leadMessages.outcomes[fault]}</Notice> : <Opening trialId={trial.id} />}
      </section>
      <p className="mt-6">
        <Link href={`/lead/trials/${trial.id}/leads`} className="inline-flex min-h-[44px] items-center">
          {words.leads}
        </Link>
      </p>
    </>
  );
}
