"use client";

import { EmailField, NameField, NewPasswordField } from "@/lib/ui/components/account-fields";
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
          <NameField state={state} />
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
