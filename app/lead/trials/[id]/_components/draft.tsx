import Link from "next/link";
import { promisesOf } from "@/lib/services/lead/plan";
import type { LeadTrialView } from "@/lib/services/lead/read";
import { ButtonLink } from "@/lib/ui/components/button";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { PlanSheet } from "@/lib/ui/components/plan-sheet";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { recipeNames } from "@/lib/ui/recipe-names";
import { AddRecipe, Opening, TakeOutRecipe } from "./draft-forms";

const words = leadMessages.draft;

/** A draft from its recipes to its opening; the plan that would be frozen stands right above the button. */
export function Draft({ view }: { view: LeadTrialView }) {
  const { trial, choices, openingFault } = view;
  const page = `/lead/trials/${trial.id}`;
  const { length: recipes } = trial.arms;
  const plannedFor = choices.sampleSize?.recipes ?? recipes;
  return (
    <>
      <Recipes view={view} />
      <section className="mb-8">
        <h2 className="mb-2">{words.design}</h2>
        <p className="mb-3 max-w-[44em]">{words.designLead[choices.sampleSize ? "some" : "none"]}</p>
        {plannedFor === recipes || recipes === 0 ? null : (
          <Notice kind="due">{words.plannedForOther(plannedFor, recipes)}</Notice>
        )}
        <ButtonLink href={`${page}/design`} kind={choices.sampleSize ? "quiet" : "main"}>
          {words.toDesign}
        </ButtonLink>
      </section>
      <section className="mb-8">
        <h2 className="mb-2">{words.regions}</h2>
        <Facts
          items={trial.regions.map(({ name, capacity }) => ({ label: name, value: words.seats(capacity) }))}
        />
      </section>
      <section className="mb-8">
        <h2 className="mb-2">{words.planTitle}</h2>
        <p className="mb-3 max-w-[44em] text-quiet">{words.planLead}</p>
        <p className="mb-4 flex flex-wrap gap-x-6">
          {(["edit", "plan", "leads"] as const).map((part) => (
            <Link key={part} href={`${page}/${part}`} className="inline-flex min-h-[44px] items-center">
              {{ edit: words.change, plan: words.changeChoices, leads: words.leads }[part]}
            </Link>
          ))}
        </p>
        <PlanSheet plan={promisesOf({ ...trial, choices })} recipeName={recipeNames(trial.arms)} />
      </section>
      <section>
        <h2 className="mb-2">{words.open}</h2>
        <p className="mb-4 max-w-[44em]">{words.openLead}</p>
        {openingFault ? (
          <Notice kind="info">{leadMessages.outcomes[openingFault]}</Notice>
        ) : (
          <Opening trialId={trial.id} />
        )}
      </section>
    </>
  );
}

function Recipes({ view: { trial, shelf } }: { view: LeadTrialView }) {
  return (
    <section className="mb-8">
      <h2 className="mb-2">{words.recipes}</h2>
      {trial.arms.length === 0 ? <p className="mb-4">{words.noRecipes}</p> : null}
      <ul className="mb-4 max-w-[44em]">
        {trial.arms.map(({ id, code, content }) => (
          <li
            key={id}
            className="flex flex-wrap items-center justify-between gap-3 border-b border-line py-2"
          >
            <span>
              <strong>{code}</strong> {vocabularyMessages.recipeName(content)}
              <span className="block text-[0.9375rem] text-quiet">
                {vocabularyMessages.recipeSteps(content)}
              </span>
            </span>
            <TakeOutRecipe trialId={trial.id} armId={id} code={code} />
          </li>
        ))}
      </ul>
      {shelf.length > 0 ? (
        <AddRecipe
          trialId={trial.id}
          recipes={shelf.map(({ variantId, name, content }) => ({
            value: variantId,
            label: `${name}: ${vocabularyMessages.recipeName(content)}`,
          }))}
        />
      ) : (
        <p className="mb-4">{words.shelfEmpty}</p>
      )}
      <p className="mt-3">
        <ButtonLink kind="quiet" href="/variants/new">
          {words.makeRecipe}
        </ButtonLink>
      </p>
    </section>
  );
}
