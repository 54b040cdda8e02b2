"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { CheckField } from "@/lib/ui/components/check-field";
import { releaseMessages } from "@/lib/ui/messages/en/release";
import { release } from "../actions";

const words = releaseMessages.lead;

/** @param rowsSha256 of the rows that were looked at */
export function ReleaseForm({ trialId, rowsSha256 }: { trialId: string; rowsSha256: string }) {
  return (
    <ActionForm action={release} words={words.outcomes} submit={words.submit}>
      {(state) => (
        <>
          <input type="hidden" name="trialId" value={trialId} />
          <input type="hidden" name="rowsSha256" value={rowsSha256} />
          <CheckField
            name="confirm"
            label={words.confirm}
            error={state.fields?.confirm ? words.outcomes.CONFIRM : undefined}
          />
        </>
      )}
    </ActionForm>
  );
}
