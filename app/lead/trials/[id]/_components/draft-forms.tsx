"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { CheckField } from "@/lib/ui/components/check-field";
import { SelectField, type SelectOption } from "@/lib/ui/components/select-field";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { addRecipe, open, takeOutRecipe } from "../actions";

const { draft: words, outcomes } = leadMessages;

export function AddRecipe({ trialId, recipes }: { trialId: string; recipes: readonly SelectOption[] }) {
  return (
    <ActionForm action={addRecipe} words={outcomes} submit={words.addSubmit} kind="quiet">
      {() => (
        <>
          <input type="hidden" name="trialId" value={trialId} />
          <SelectField name="variantId" label={words.add} options={recipes} required />
        </>
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
