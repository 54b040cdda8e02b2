"use client";

import { useRouter } from "next/navigation";
import type { FormEvent } from "react";
import { Button } from "@/lib/ui/components/button";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { SelectField } from "@/lib/ui/components/select-field";
import { TextField } from "@/lib/ui/components/text-field";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { useWrite } from "@/lib/ui/use-write";
import { ABANDON_REASONS } from "@/shared/vocabulary/box";
import { NOTE_MAX_LENGTH } from "@/shared/vocabulary/text";
import { Fold } from "./fold";

const words = setMessages.outing;

/** Ends a set with a reason. */
export function GiveUpForm({ outingId }: { outingId: string }) {
  const router = useRouter();
  const { busy, problem, send } = useWrite("/api/v1/abandonments");

  async function giveUp(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const note = form.get("note");
    if (await send({ outingId, reason: form.get("reason"), note: note === "" ? null : note }))
      router.refresh();
  }

  return (
    <Fold title={words.giveUpTitle}>
      <form onSubmit={giveUp} noValidate>
        <p className="mb-3">{words.giveUpLead}</p>
        <SelectField
          name="reason"
          label={words.giveUpReason}
          options={[
            { value: "", label: growingMessages.chooseFirst },
            ...ABANDON_REASONS.map((value) => ({ value, label: words.reasons[value] })),
          ]}
        />
        <TextField name="note" label={words.giveUpNote} maxLength={NOTE_MAX_LENGTH} />
        <ProblemNotice problem={problem} />
        <Button kind="quiet" disabled={busy}>
          {busy ? growingMessages.sending : words.giveUpButton}
        </Button>
      </form>
    </Fold>
  );
}
