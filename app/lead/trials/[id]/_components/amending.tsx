"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { NumberField } from "@/lib/ui/components/number-field";
import { TextAreaField } from "@/lib/ui/components/text-area-field";
import { TextField } from "@/lib/ui/components/text-field";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { CLARIFICATION_MAX_LENGTH, REASON_MAX_LENGTH } from "@/shared/schemas/plan-amendment";
import { faultWords } from "../../_components/fault-words";
import { amend } from "../actions";

const { amendments: words, outcomes } = leadMessages;
const KINDS = Object.entries(words.kinds).map(([value, { label }]) => ({ value, label }));

/** Adds an amendment; only the field of the kind chosen is shown where the browser can tell. */
export function Amending({ trialId }: { trialId: string }) {
  return (
    <details className="group/amend mb-8">
      <summary className="min-h-[44px] cursor-pointer py-2 font-semibold">{words.make}</summary>
      <ActionForm action={amend} words={outcomes} submit={words.submit} kind="quiet">
        {(state) => {
          const field = (name: string) => ({
            name,
            defaultValue: state.values?.[name],
            error: faultWords(state, name),
          });
          return (
            <>
              <input type="hidden" name="trialId" value={trialId} />
              <ChoiceField {...field("kind")} legend={words.kind} options={KINDS} stacked required />
              <div className="hidden group-has-[[value=endsOn]:checked]/amend:block">
                <TextField {...field("endsOn")} type="date" label={words.endsOn} />
              </div>
              <div className="hidden group-has-[[value=endsAtBoxes]:checked]/amend:block">
                <NumberField
                  {...field("endsAtBoxes")}
                  label={words.endsAtBoxes}
                  min={1}
                  step={1}
                  inputMode="numeric"
                />
              </div>
              <div className="hidden group-has-[[value=clarification]:checked]/amend:block">
                <TextAreaField
                  {...field("clarification")}
                  label={words.clarification}
                  maxLength={CLARIFICATION_MAX_LENGTH}
                />
              </div>
              <TextAreaField
                {...field("reason")}
                label={words.reason}
                hint={words.reasonHint}
                maxLength={REASON_MAX_LENGTH}
                required
              />
            </>
          );
        }}
      </ActionForm>
    </details>
  );
}
