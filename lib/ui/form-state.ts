import type { z } from "zod";

/** What a form's server action answers with when it doesn't lead elsewhere; codes, whose words the form finds. */
export interface FormState {
  /** Why nothing was done. */
  readonly error?: string;
  /** What is wrong with which field. */
  readonly fields?: Readonly<Record<string, string>>;
  /** What was typed, to stand in the fields again; never a password. */
  readonly values?: Readonly<Record<string, string>>;
  /** What was done. */
  readonly done?: string;
}

/** The answer to whoever isn't signed in any more: on a page of their own they would lose what they typed. */
export const SIGNED_OUT = { error: "SIGN_IN_FIRST" } as const satisfies FormState;

/** The first fault of each field. */
export function fieldFaults(error: z.ZodError): Record<string, string> {
  const faults: Record<string, string> = {};
  for (const issue of error.issues) faults[issue.path.join(".")] ??= issue.message;
  return faults;
}
