import { z } from "zod";
import { PEOPLE_GROUPS, type PeopleGroup } from "@/shared/vocabulary/desk";
import { uuidV7 } from "./id";
import { keepableText } from "./text";

// Every message is a key of the message catalogue.

export const SUBJECT_MAX_LENGTH = 120;
export const BODY_MAX_LENGTH = 4000;

/** A trial's letters within a day and a night: enough for a storm, too few to pester. */
export const LETTERS_A_DAY = 10;

/** To whom a letter goes: everyone, a group, or one household by `home-` and its pseudonym. */
export const audienceSchema = z.union(
  [
    z.enum(["everyone", ...PEOPLE_GROUPS]),
    z.templateLiteral(["home-", z.string().regex(/^[0-9A-Z]{1,20}$/)]),
  ],
  { error: "letter.audience" },
);
export type Audience = "everyone" | PeopleGroup | `home-${string}`;

/** A letter from a trial's lead to its growers: plain text. Its id makes sending it twice one letter. */
export const letterSchema = z.strictObject({
  id: uuidV7,
  audience: audienceSchema,
  subject: keepableText("letter.subject")
    .transform((text) => text.replaceAll(/\s+/g, " ").trim())
    .pipe(
      z.string().min(1, { error: "letter.subject" }).max(SUBJECT_MAX_LENGTH, { error: "letter.subject" }),
    ),
  body: keepableText("letter.body")
    .transform((text) => text.replaceAll("\r\n", "\n").trim())
    .pipe(z.string().min(1, { error: "letter.body" }).max(BODY_MAX_LENGTH, { error: "letter.body" })),
});
export type Letter = Readonly<z.infer<typeof letterSchema>>;
