"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { myThingsMessages as words } from "@/lib/ui/messages/en/my-things";
import { recordStands } from "../actions";

export function RecordStands({ requestId }: { requestId: string }) {
  return (
    <ActionForm action={recordStands} words={words.requestOutcomes} submit={words.stands} kind="quiet">
      {() => <input type="hidden" name="requestId" value={requestId} />}
    </ActionForm>
  );
}
