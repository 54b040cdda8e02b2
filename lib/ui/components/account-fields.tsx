import type { FormState } from "@/lib/ui/form-state";
import { accountMessages } from "@/lib/ui/messages/en/accounts";
import { TextField } from "./text-field";

const { fields, faults } = accountMessages;

/** The address an account is known by; a browser's password store takes it for the user name. */
export function EmailField({ state, hint }: { state: FormState; hint?: string }) {
  return (
    <TextField
      name="email"
      type="email"
      autoComplete="username"
      required
      label={fields.email}
      hint={hint}
      defaultValue={state.values?.email}
      error={faults[state.fields?.email ?? ""]}
    />
  );
}

/** The name an account goes by; `known` is the one it has. */
export function NameField({ state, known }: { state: FormState; known?: string }) {
  return (
    <TextField
      name="name"
      autoComplete="name"
      required
      maxLength={80}
      label={fields.name}
      hint={fields.nameHint}
      defaultValue={state.values?.name ?? known}
      error={faults[state.fields?.name ?? ""]}
    />
  );
}

/** A password about to be chosen. */
export function NewPasswordField({ state, label }: { state: FormState; label: string }) {
  return (
    <TextField
      name="password"
      type="password"
      autoComplete="new-password"
      required
      label={label}
      hint={fields.passwordHint}
      error={faults[state.fields?.password ?? ""]}
    />
  );
}

/** The password the account has. */
export function CurrentPasswordField({
  state,
  name = "password",
  label = fields.currentPassword,
}: {
  state: FormState;
  name?: string;
  label?: string;
}) {
  return (
    <TextField
      name={name}
      type="password"
      autoComplete="current-password"
      required
      label={label}
      error={faults[state.fields?.[name] ?? ""]}
    />
  );
}
