"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { CheckField } from "@/lib/ui/components/check-field";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { addRecipes, open, takeOutRecipe } from "../actions";

const { draft: words, outcomes } = leadMessages;

interface ShelfRecipe {
  readonly variantId: string;
  /** As its owner calls it. */
  readonly name: string;
  readonly recipe: string;
}

export function AddRecipes({ trialId, recipes }: { trialId: string; recipes: readonly ShelfRecipe[] }) {
  return (
    <ActionForm action={addRecipes} words={outcomes} submit={words.addSubmit} kind="quiet">
      {() => (
        <fieldset className="mb-3 max-w-[44em]">
          <legend className="mb-1 font-semibold">{words.add}</legend>
          <input type="hidden" name="trialId" value={trialId} />
          {recipes.map(({ variantId, name, recipe }) => (
            <CheckField
              key={variantId}
              name="variantId"
              value={variantId}
              label={
                <>
                  <bdi className="block break-words">{name}</bdi>
                  <span className="text-[0.9375rem] text-quiet">{recipe}</span>
                </>
              }
            />
          ))}
        </fieldset>
      )}
    </ActionForm>
  );
}

export function TakeOutRecipe({ trialId, armId, code }: { trialId: string; armId: string; code: string }) {
  return (
    <ActionForm action={takeOutRecipe} words={outcomes} submit={words.remove(code)} kind="quiet">
      {() => (
        <>
          <input type="hidden" name="trialId" value={trialId} />
          <input type="hidden" name="armId" value={armId} />
        </>
      )}
    </ActionForm>
  );
}

export function Opening({ trialId }: { trialId: string }) {
  return (
    <ActionForm action={open} words={outcomes} submit={words.submit}>
      {(state) => (
        <>
          <input type="hidden" name="trialId" value={trialId} />
          <CheckField
            name="confirm"
            label={words.confirm}
            required
            error={state.fields?.confirm ? outcomes.CONFIRM : undefined}
          />
        </>
      )}
    </ActionForm>
  );
}
