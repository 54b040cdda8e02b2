"use client";

import { useRouter } from "next/navigation";
import type { FormEvent } from "react";
import { Button } from "@/lib/ui/components/button";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { TextField } from "@/lib/ui/components/text-field";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { useWrite } from "@/lib/ui/use-write";

const words = setMessages.outing;

interface Props {
  readonly outingId: string;
  readonly version: number;
  readonly day: string;
}

/** Another day for a set that isn't out yet; its draw stays. */
export function MoveDayForm({ outingId, version, day }: Props) {
  const router = useRouter();
  const { busy, problem, send } = useWrite("/api/v1/outing-days");

  async function move(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const chosen = new FormData(event.currentTarget).get("day");
    if (await send({ outingId, basedOn: version, day: chosen })) router.refresh();
  }

  const error =
    problem?.reason === "DAY_IN_PAST" || problem?.reason === "DAY_AFTER_TRIAL"
      ? problem.title
      : problem?.fields[0] && fieldWords(problem.fields[0].code);
  return (
    <form onSubmit={move} noValidate>
      <p className="mb-3 text-quiet">{words.moveLead}</p>
      <TextField name="day" id="new-day" type="date" label={words.moveDay} defaultValue={day} error={error} />
      <ProblemNotice problem={problem} inputs={{ day: "new-day" }} />
      <Button kind="quiet" disabled={busy}>
        {busy ? growingMessages.sending : words.moveButton}
      </Button>
    </form>
  );
}
