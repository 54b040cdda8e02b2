"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { TextField } from "@/lib/ui/components/text-field";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { signIn } from "../actions";

const { fields, faults, outcomes, signIn: words } = accountMessages;

export function SignInForm({ next }: { next: string }) {
  return (
    <ActionForm action={signIn} words={outcomes} submit={words.submit}>
      {(state) => (
        <>
          <input type="hidden" name="next" value={next} />
          <TextField
            name="email"
            type="email"
            autoComplete="username"
            required
            label={fields.email}
            defaultValue={state.values?.email}
            error={faults[state.fields?.email ?? ""]}
          />
          <TextField
            name="password"
            type="password"
            autoComplete="current-password"
            required
            label={fields.password}
            error={faults[state.fields?.password ?? ""]}
          />
        </>
      )}
    </ActionForm>
  );
}
