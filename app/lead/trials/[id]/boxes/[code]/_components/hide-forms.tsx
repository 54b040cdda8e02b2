"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { TextField } from "@/lib/ui/components/text-field";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { HIDING_MAX_LENGTH } from "@/shared/schemas/correction";
import type { HideableKind } from "@/shared/vocabulary/desk";
import { deskFault } from "../../../_components/desk-faults";
import { hide, show } from "../actions";

const { box: words, outcomes } = deskMessages;

interface Thing {
  readonly trialId: string;
  readonly code: string;
  readonly kind: HideableKind;
  readonly id: string;
}

export function HideForm(thing: Thing) {
  return (
    <details>
      <summary className="min-h-[44px] cursor-pointer py-2.5">{words.hide[thing.kind]}</summary>
      <ActionForm action={hide} words={outcomes} submit={words.hideSubmit} kind="quiet">
        {(state) => (
          <>
            <Names {...thing} />
            <TextField
              name="reason"
              defaultValue={state.values?.reason}
              error={deskFault(state, "reason")}
              label={words.reason}
              hint={words.reasonHint}
              maxLength={HIDING_MAX_LENGTH}
              dir="auto"
              required
            />
          </>
        )}
      </ActionForm>
    </details>
  );
}

export function ShowForm(thing: Thing) {
  return (
    <ActionForm action={show} words={outcomes} submit={words.show} kind="quiet">
      {() => <Names {...thing} />}
    </ActionForm>
  );
}

function Names(thing: Thing) {
  return Object.entries(thing).map(([name, value]) => (
    <input key={name} type="hidden" name={name} value={value} />
  ));
}
