"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { TextField } from "@/lib/ui/components/text-field";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { recipeMessages as words } from "@/lib/ui/messages/en/recipes";
import { saveName, takeOff } from "../actions";

export function RenameForm({ variantId, name }: { variantId: string; name: string }) {
  return (
    <ActionForm action={saveName} words={words.outcomes} submit={words.rename} kind="quiet">
      {(state) => (
        <>
          <input type="hidden" name="variantId" value={variantId} />
          <TextField
            name="name"
            label={words.name}
            maxLength={80}
            defaultValue={state.values?.name ?? name}
            error={state.fields?.name ? fieldWords(state.fields.name) : undefined}
          />
        </>
      )}
    </ActionForm>
  );
}

export function TakeOffForm({ variantId }: { variantId: string }) {
  return (
    <ActionForm action={takeOff} words={words.outcomes} submit={words.off} kind="quiet">
      {() => <input type="hidden" name="variantId" value={variantId} />}
    </ActionForm>
  );
}
