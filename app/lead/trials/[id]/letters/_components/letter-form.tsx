"use client";

import { useEffect, useRef } from "react";
import { Button } from "@/lib/ui/components/button";
import { FormAnswer } from "@/lib/ui/components/form-answer";
import { SelectField } from "@/lib/ui/components/select-field";
import { TextAreaField } from "@/lib/ui/components/text-area-field";
import { TextField } from "@/lib/ui/components/text-field";
import { useFormAction } from "@/lib/ui/components/use-form-action";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { type Audience, BODY_MAX_LENGTH, SUBJECT_MAX_LENGTH } from "@/shared/schemas/letter";
import { PEOPLE_GROUPS } from "@/shared/vocabulary/desk";
import { deskFault } from "../../_components/desk-faults";
import { type LetterState, writeLetter } from "../actions";
import { audienceWords } from "./audience-words";

const { letters: words, outcomes } = deskMessages;
const FIELDS = ["audience", "subject", "body"] as const;

interface Props {
  readonly trialId: string;
  /** Made with the page, so that sending twice sends one letter. */
  readonly letterId: string;
  readonly to: Audience | null;
}

/** A letter is written, looked at as its readers get it, and only then sent. */
export function LetterForm({ trialId, letterId, to }: Props) {
  const [state, form, pending] = useFormAction(writeLetter);
  return (
    <form {...form}>
      <FormAnswer state={state} words={outcomes} />
      <input type="hidden" name="trialId" value={trialId} />
      <input type="hidden" name="id" value={state.values?.id ?? letterId} />
      {state.reach ? (
        <Preview state={state} pending={pending} />
      ) : (
        <>
          <Fields state={state} to={to} />
          <Button name="step" value="look" disabled={pending}>
            {words.look}
          </Button>
        </>
      )}
    </form>
  );
}

function Fields({ state, to }: { state: LetterState; to: Audience | null }) {
  const field = (name: (typeof FIELDS)[number]) => ({
    name,
    defaultValue: state.values?.[name],
    error: deskFault(state, name),
  });
  const audiences: Audience[] = ["everyone", ...PEOPLE_GROUPS];
  if (to?.startsWith("home-")) audiences.unshift(to);
  const chosen = field("audience");
  return (
    <>
      <SelectField
        {...chosen}
        defaultValue={chosen.defaultValue ?? to ?? "everyone"}
        label={words.to}
        options={audiences.map((value) => ({ value, label: audienceWords(value) }))}
      />
      <TextField
        {...field("subject")}
        label={words.subject}
        hint={words.subjectHint}
        maxLength={SUBJECT_MAX_LENGTH}
        dir="auto"
        required
      />
      <TextAreaField
        {...field("body")}
        label={words.body}
        hint={words.bodyHint}
        maxLength={BODY_MAX_LENGTH}
        rows={9}
        dir="auto"
        required
      />
    </>
  );
}

/** Takes focus, as it takes the place of the fields. */
function Preview({ state, pending }: { state: LetterState; pending: boolean }) {
  const { audience = "", subject = "", body = "" } = state.values ?? {};
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  return (
    <>
      {FIELDS.map((name) => (
        <input key={name} type="hidden" name={name} value={state.values?.[name] ?? ""} />
      ))}
      <div className="mb-5 max-w-[44em] rounded-[5px] border-2 border-line bg-panel px-3.5 py-2.5">
        <h3 ref={heading} tabIndex={-1} className="mb-2">
          {words.preview}
        </h3>
        <p className="text-quiet">
          {words.to}: {audienceWords(audience as Audience)}
        </p>
        <p className="mb-2 font-semibold">
          <bdi>{subject}</bdi>
        </p>
        <p dir="auto" className="whitespace-pre-line">
          {body}
        </p>
      </div>
      <p role="status" className="mb-4 font-semibold">
        {state.reach ? words.reach(state.reach) : null}
      </p>
      <p className="flex flex-wrap gap-3">
        <Button name="step" value="send" disabled={pending}>
          {words.send}
        </Button>
        <Button name="step" value="change" kind="quiet" disabled={pending}>
          {words.change}
        </Button>
      </p>
    </>
  );
}
