"use client";

import { CurrentPasswordField, NameField, NewPasswordField } from "@/lib/ui/components/account-fields";
import { ActionForm } from "@/lib/ui/components/action-form";
import { CheckField } from "@/lib/ui/components/check-field";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { deleteAccount, saveLetters, saveName, savePassword } from "../actions";

const { fields, outcomes, account: words } = accountMessages;

export function NameForm({ name }: { name: string }) {
  return (
    <ActionForm action={saveName} words={outcomes} submit={words.nameSubmit} kind="quiet">
      {(state) => <NameField state={state} known={name} />}
    </ActionForm>
  );
}

export function PasswordForm() {
  return (
    <ActionForm action={savePassword} words={outcomes} submit={words.passwordSubmit} kind="quiet">
      {(state) => (
        <>
          <CurrentPasswordField state={state} name="current" />
          <NewPasswordField state={state} label={fields.newPassword} />
        </>
      )}
    </ActionForm>
  );
}

export function LettersForm({ byMail }: { byMail: boolean }) {
  return (
    <ActionForm action={saveLetters} words={outcomes} submit={words.lettersSubmit} kind="quiet">
      {() => (
        <CheckField name="byMail" label={words.lettersByMail} defaultChecked={byMail} key={String(byMail)} />
      )}
    </ActionForm>
  );
}

export function LeaveForm() {
  return (
    <ActionForm action={deleteAccount} words={outcomes} submit={words.leaveSubmit} kind="quiet">
      {(state) => <CurrentPasswordField state={state} />}
    </ActionForm>
  );
}
