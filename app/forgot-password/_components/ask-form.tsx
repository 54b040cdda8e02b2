"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { TextField } from "@/lib/ui/components/text-field";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { askForLink } from "../actions";

const { fields, faults, outcomes, forgot: words } = accountMessages;

export function AskForm() {
  return (
    <ActionForm action={askForLink} words={outcomes} submit={words.submit}>
      {(state) => (
        <TextField
          name="email"
          type="email"
          autoComplete="username"
          required
          label={fields.email}
          defaultValue={state.values?.email}
          error={faults[state.fields?.email ?? ""]}
        />
      )}
    </ActionForm>
  );
}
