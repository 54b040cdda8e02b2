import type { LeadTrialView } from "@/lib/services/lead/read";
import { ButtonLink } from "@/lib/ui/components/button";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { AddRecipes, TakeOutRecipe } from "./draft-forms";

const words = leadMessages.draft;

/** The recipes of a draft, and those of the lead's shelf that it doesn't have yet. */
export function DraftRecipes({ view: { trial, shelf } }: { view: LeadTrialView }) {
  return (
    <>
      {trial.arms.length === 0 ? <p className="mb-4">{words.noRecipes}</p> : null}
      <ul className="mb-4 max-w-[44em]">
        {trial.arms.map(({ id, code, content }) => (
          <li
            key={id}
            className="flex flex-wrap items-center justify-between gap-x-3 gap-y-1 border-b border-line py-2"
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
        <AddRecipes
          trialId={trial.id}
          recipes={shelf.map(({ variantId, name, content }) => ({
            variantId,
            name,
            recipe: vocabularyMessages.recipeName(content),
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
    </>
  );
}
