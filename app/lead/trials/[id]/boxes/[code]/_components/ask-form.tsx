"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { TextAreaField } from "@/lib/ui/components/text-area-field";
import { deskMessages } from "@/lib/ui/messages/en/desk";
import { CORRECTION_MAX_LENGTH } from "@/shared/schemas/correction";
import { deskFault } from "../../../_components/desk-faults";
import { ask } from "../actions";

const { box: words, corrections, outcomes } = deskMessages;
const KINDS = Object.entries(corrections.kinds).map(([value, label]) => ({ value, label }));

interface Props {
  readonly trialId: string;
  readonly code: string;
  /** What looked odd, where the lead came from there. */
  readonly kind: string | undefined;
}

export function AskForm({ trialId, code, kind }: Props) {
  return (
    <ActionForm action={ask} words={outcomes} submit={words.askSubmit} kind="quiet">
      {(state) => {
        const field = (name: "kind" | "words") => ({
          name,
          defaultValue: state.values?.[name],
          error: deskFault(state, name),
        });
        const chosen = field("kind");
        return (
          <>
            <input type="hidden" name="trialId" value={trialId} />
            <input type="hidden" name="code" value={code} />
            <ChoiceField
              {...chosen}
              defaultValue={chosen.defaultValue ?? kind}
              legend={words.kind}
              options={KINDS}
              stacked
            />
            <TextAreaField
              {...field("words")}
              label={words.own}
              hint={words.ownHint}
              maxLength={CORRECTION_MAX_LENGTH}
              dir="auto"
            />
          </>
        );
      }}
    </ActionForm>
  );
}
