"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { CheckField } from "@/lib/ui/components/check-field";
import { joinMessages as words } from "@/lib/ui/messages/en/join";
import { leave, stopWaiting } from "../actions";

interface Props {
  readonly trialId: string;
  readonly joinCode: string;
}

/** For a household in line. */
export function StopWaiting(props: Props) {
  return (
    <ActionForm action={stopWaiting} words={words.outcomes} submit={words.stepBack} kind="quiet">
      {() => <HiddenFields {...props} />}
    </ActionForm>
  );
}

/** For a household with a seat, which its draws keep for it. */
export function Leave({ keepsSeat, ...props }: Props & { readonly keepsSeat: boolean }) {
  return (
    <details className="mt-8 max-w-[44em] border-t border-line pt-2">
      <summary className="min-h-11 cursor-pointer py-2 font-semibold">{words.leaveTitle}</summary>
      <p className="my-3">{keepsSeat ? words.leaveLead.seatKept : words.leaveLead.seatFreed}</p>
      <ActionForm action={leave} words={words.outcomes} submit={words.leave} kind="quiet">
        {(state) => (
          <>
            <HiddenFields {...props} />
            <CheckField
              name="confirm"
              label={words.leaveConfirm}
              error={state.fields?.confirm ? words.outcomes.CONFIRM : undefined}
            />
          </>
        )}
      </ActionForm>
    </details>
  );
}

function HiddenFields({ trialId, joinCode }: Props) {
  return (
    <>
      <input type="hidden" name="trialId" value={trialId} />
      <input type="hidden" name="joinCode" value={joinCode} />
    </>
  );
}
