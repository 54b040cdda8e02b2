"use client";

import type { LeadTrialView } from "@/lib/services/lead/read";
import { ActionForm } from "@/lib/ui/components/action-form";
import { CheckField } from "@/lib/ui/components/check-field";
import { dayWords } from "@/lib/ui/format";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { close } from "../actions";

const { running: words, outcomes } = leadMessages;

interface Props {
  readonly trialId: string;
  readonly endsOn: string;
  readonly ending: NonNullable<LeadTrialView["ending"]>;
  /** What the plan says about closing early, in words. */
  readonly rule: string;
}

export function Closing({ trialId, endsOn, ending, rule }: Props) {
  if (ending.fault) {
    return (
      <section className="mb-8">
        <h2 className="mb-2">{words.close}</h2>
        <p className="max-w-[44em]">{outcomes[ending.fault]}</p>
      </section>
    );
  }
  return (
    <section className="mb-8">
      <h2 className="mb-2">{words.close}</h2>
      <p className="mb-3 max-w-[44em]">{words.closeLead}</p>
      {ending.isEarly ? (
        <p className="mb-3 max-w-[44em] font-semibold">{words.closeEarly(dayWords(endsOn), rule)}</p>
      ) : null}
      <ActionForm action={close} words={outcomes} submit={words.submit} kind="quiet">
        {(state) => (
          <>
            <input type="hidden" name="trialId" value={trialId} />
            <CheckField
              name="confirm"
              label={words.confirm}
              required
              error={state.fields?.confirm ? outcomes.CONFIRM : undefined}
            />
          </>
        )}
      </ActionForm>
    </section>
  );
}
