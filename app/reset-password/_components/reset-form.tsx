"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { TextField } from "@/lib/ui/components/text-field";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { saveNewPassword } from "../actions";

const { fields, faults, outcomes, reset: words } = accountMessages;

export function ResetForm({ token }: { token: string }) {
  return (
    <ActionForm action={saveNewPassword} words={outcomes} submit={words.submit}>
      {(state) => (
        <>
          <input type="hidden" name="token" value={token} />
          <TextField
            name="password"
            type="password"
            autoComplete="new-password"
            required
            label={fields.newPassword}
            hint={fields.passwordHint}
            error={faults[state.fields?.password ?? ""]}
          />
        </>
      )}
    </ActionForm>
  );
}
