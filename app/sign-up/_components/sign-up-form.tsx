"use client";

import { EmailField, NewPasswordField } from "@/lib/ui/components/account-fields";
import { ActionForm } from "@/lib/ui/components/action-form";
import { TextField } from "@/lib/ui/components/text-field";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { makeAccount } from "../actions";

const { fields, faults, outcomes, signUp: words } = accountMessages;

export function SignUpForm({ next }: { next: string }) {
  return (
    <ActionForm action={makeAccount} words={outcomes} submit={words.submit}>
      {(state) => (
        <>
          <input type="hidden" name="next" value={next} />
          <TextField
            name="name"
            autoComplete="name"
            required
            maxLength={80}
            label={fields.name}
            hint={fields.nameHint}
            defaultValue={state.values?.name}
            error={faults[state.fields?.name ?? ""]}
          />
          <EmailField state={state} hint={fields.emailHint} />
          <NewPasswordField state={state} label={fields.password} />
          <TextField
            name="householdCode"
            autoComplete="off"
            autoCapitalize="characters"
            label={fields.householdCode}
            hint={fields.householdCodeHint}
            defaultValue={state.values?.householdCode}
            error={faults[state.fields?.householdCode ?? ""]}
          />
        </>
      )}
    </ActionForm>
  );
}
