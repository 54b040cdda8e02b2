"use client";

import { NewPasswordField } from "@/lib/ui/components/account-fields";
import { ActionForm } from "@/lib/ui/components/action-form";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { saveNewPassword } from "../actions";

const { fields, outcomes, reset: words } = accountMessages;

export function ResetForm({ token }: { token: string }) {
  return (
    <ActionForm action={saveNewPassword} words={outcomes} submit={words.submit}>
      {(state) => (
        <>
          <input type="hidden" name="token" value={token} />
          <NewPasswordField state={state} label={fields.newPassword} />
        </>
      )}
    </ActionForm>
  );
}
