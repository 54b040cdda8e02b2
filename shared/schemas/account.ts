import { z } from "zod";
import { keepableText } from "./text";

const name = keepableText("name.missing").trim().min(1, "name.missing").max(80, "name.tooLong");

/** As typed, in lower case: an address is found however it was typed. */
const email = z
  .string()
  .trim()
  .toLowerCase()
  .min(1, "email.missing")
  .max(254, "email.invalid")
  .pipe(z.email("email.invalid"));

/** Its length and commonness are judged where it is set. A longer one than this is not even looked at. */
const password = z.string().min(1, "password.missing").max(1024, "password.tooLong");

export const signUpSchema = z.object({
  name,
  email,
  password,
  /** Empty: a household of one's own. */
  householdCode: keepableText("householdCode.unknown").max(40, "householdCode.unknown").default(""),
});

export const signInSchema = z.object({ email, password });
export const emailSchema = z.object({ email });
export const nameSchema = z.object({ name });
export const newPasswordSchema = z.object({ token: z.string().min(1).max(200), password });
export const changePasswordSchema = z.object({ current: password, password });
export const confirmSchema = z.object({ password });

export type SignUpForm = z.infer<typeof signUpSchema>;
