"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { seasonMessages as words } from "@/lib/ui/messages/en/season";
import { copy } from "../actions";

export function CopyForm({ trialId }: { trialId: string }) {
  return (
    <ActionForm action={copy} words={words.outcomes} submit={words.submit}>
      {() => <input type="hidden" name="trialId" value={trialId} />}
    </ActionForm>
  );
}
