"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { CheckField } from "@/lib/ui/components/check-field";
import { TextField } from "@/lib/ui/components/text-field";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { deskFault } from "../../_components/desk-faults";
import { add, leaveTrial } from "../actions";

const { leads: words, outcomes } = deskMessages;

export function AddLeadForm({ trialId }: { trialId: string }) {
  return (
    <ActionForm action={add} words={outcomes} submit={words.addSubmit} kind="quiet">
      {(state) => (
        <>
          <input type="hidden" name="trialId" value={trialId} />
          <TextField
            name="email"
            type="email"
            defaultValue={state.values?.email}
            error={deskFault(state, "email")}
            label={words.email}
            hint={words.emailHint}
            maxLength={254}
            autoComplete="off"
            required
          />
        </>
      )}
    </ActionForm>
  );
}

export function StepBackForm({ trialId }: { trialId: string }) {
  return (
    <ActionForm action={leaveTrial} words={outcomes} submit={words.backSubmit} kind="quiet">
      {(state) => (
        <>
          <input type="hidden" name="trialId" value={trialId} />
          <p className="mb-3 max-w-[44em]">{words.backLead}</p>
          <CheckField name="confirm" label={words.backConfirm} error={deskFault(state, "confirm")} required />
        </>
      )}
    </ActionForm>
  );
}
