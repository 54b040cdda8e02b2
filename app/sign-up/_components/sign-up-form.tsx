"use client";

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
          <TextField
            name="email"
            type="email"
            autoComplete="username"
            required
            label={fields.email}
            hint={fields.emailHint}
            defaultValue={state.values?.email}
            error={faults[state.fields?.email ?? ""]}
          />
          <TextField
            name="password"
            type="password"
            autoComplete="new-password"
            required
            label={fields.password}
            hint={fields.passwordHint}
            error={faults[state.fields?.password ?? ""]}
          />
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
