"use client";

import { CurrentPasswordField, EmailField } from "@/lib/ui/components/account-fields";
import { ActionForm } from "@/lib/ui/components/action-form";
import { CheckField } from "@/lib/ui/components/check-field";
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
          <CheckField
            name="borrowed"
            label={words.borrowed}
            hint={words.borrowedHint}
            defaultChecked={state.values?.borrowed === "on"}
          />
        </>
      )}
    </ActionForm>
  );
}
