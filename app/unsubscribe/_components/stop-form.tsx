"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { unsubscribeMessages as words } from "@/lib/ui/messages/en/unsubscribe";
import { stopLetters } from "../actions";

export function StopForm({ token }: { token: string }) {
  return (
    <ActionForm action={stopLetters} words={words.outcomes} submit={words.submit}>
      {() => <input type="hidden" name="token" value={token} />}
    </ActionForm>
  );
}
