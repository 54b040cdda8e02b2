"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { pauseMessages } from "@/lib/ui/messages/en/pauses";
import { deskFault } from "../../_components/desk-faults";
import { pause, resume } from "../actions";

const { pause: words, outcomes } = deskMessages;
const REASONS = Object.entries(pauseMessages.reasons).map(([value, label]) => ({ value, label }));

export function PauseForm({ trialId }: { trialId: string }) {
  return (
    <ActionForm action={pause} words={outcomes} submit={words.submit}>
      {(state) => (
        <>
          <input type="hidden" name="trialId" value={trialId} />
          <ChoiceField
            name="reason"
            legend={words.reason}
            options={REASONS}
            error={deskFault(state, "reason")}
            stacked
          />
        </>
      )}
    </ActionForm>
  );
}

export function ResumeForm({ trialId }: { trialId: string }) {
  return (
    <ActionForm action={resume} words={outcomes} submit={words.resume}>
      {() => (
        <>
          <input type="hidden" name="trialId" value={trialId} />
          <p className="mb-3">{words.resumeLead}</p>
        </>
      )}
    </ActionForm>
  );
}
