"use client";

import { CurrentPasswordField, EmailField } from "@/lib/ui/components/account-fields";
import { ActionForm } from "@/lib/ui/components/action-form";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { signIn } from "../actions";

const { fields, outcomes, signIn: words } = accountMessages;

export function SignInForm({ next }: { next: string }) {
  return (
    <ActionForm action={signIn} words={outcomes} submit={words.submit}>
      {(state) => (
        <>
          <input type="hidden" name="next" value={next} />
          <EmailField state={state} />
          <CurrentPasswordField state={state} label={fields.password} />
        </>
      )}
    </ActionForm>
  );
}
