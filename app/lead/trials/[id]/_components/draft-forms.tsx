"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { CheckField } from "@/lib/ui/components/check-field";
import { NumberField } from "@/lib/ui/components/number-field";
import { SelectField, type SelectOption } from "@/lib/ui/components/select-field";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { LEAST_MINIMUM } from "@/shared/schemas/plan";
import { addRecipe, open, takeOutRecipe } from "../actions";

const { draft: words, outcomes, faults } = leadMessages;

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
          <NumberField
            name="boxesPerCell"
            label={words.minimumBoxes}
            hint={words.minimumHint(LEAST_MINIMUM.boxesPerCell)}
            min={LEAST_MINIMUM.boxesPerCell}
            step={1}
            inputMode="numeric"
            required
            defaultValue={state.values?.boxesPerCell ?? LEAST_MINIMUM.boxesPerCell}
            error={state.fields?.boxesPerCell ? faults["minimum.boxes"] : undefined}
          />
          <NumberField
            name="growersPerCell"
            label={words.minimumGrowers}
            hint={words.minimumHint(LEAST_MINIMUM.growersPerCell)}
            min={LEAST_MINIMUM.growersPerCell}
            step={1}
            inputMode="numeric"
            required
            defaultValue={state.values?.growersPerCell ?? LEAST_MINIMUM.growersPerCell}
            error={state.fields?.growersPerCell ? faults["minimum.growers"] : undefined}
          />
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
