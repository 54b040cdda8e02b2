"use client";

import { EmailField } from "@/lib/ui/components/account-fields";
import { ActionForm } from "@/lib/ui/components/action-form";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { askForLink } from "../actions";

const { outcomes, forgot: words } = accountMessages;

export function AskForm() {
  return (
    <ActionForm action={askForLink} words={outcomes} submit={words.submit}>
      {(state) => <EmailField state={state} />}
    </ActionForm>
  );
}
