"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useId, useRef, useState } from "react";
import { v7 } from "uuid";
import { Button } from "@/lib/ui/components/button";
import { Field, INPUT_LOOK } from "@/lib/ui/components/field";
import { MomentField } from "@/lib/ui/components/moment-field";
import { Notice } from "@/lib/ui/components/notice";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { TextField } from "@/lib/ui/components/text-field";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { localNow, withOffset } from "@/lib/ui/moments";
import { type SentProblem, sendWrite } from "@/lib/ui/send";
import { NOTE_MAX_LENGTH } from "@/shared/schemas/box-event";
import { BOX_EVENTS_BY_TOPIC } from "@/shared/vocabulary/box";

const words = setMessages.box;
const TOPICS = ["cooking", "stage", "happening", "recordability"] as const;

interface Props {
  readonly title: string;
  readonly lead?: string;
  /** Told of each of these; every box gets an event of its own. */
  readonly boxIds: readonly string[];
}

/** What was done to a box or happened to it, and when; several things may be told one after the other. */
export function TellForm({ title, lead, boxIds }: Props) {
  const router = useRouter();
  const kindId = useId();
  const eventIds = useRef(new Map<string, string>());
  const [when, setWhen] = useState("");
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<SentProblem | null>(null);
  const [saved, setSaved] = useState<"in-time" | "late" | null>(null);

  async function tell(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const element = event.currentTarget;
    const form = new FormData(element);
    const text = String(form.get("note") ?? "");
    const content = {
      kind: form.get("kind"),
      occurredAt: withOffset(when),
      withdrawsId: null,
      note: text || null,
    };
    setBusy(true);
    setSaved(null);
    setProblem(null);
    const sent = await tellAll(content);
    setBusy(false);
    if (!sent.ok) return setProblem(sent.problem);
    eventIds.current.clear();
    element.reset();
    setWhen(localNow());
    setSaved(sent.late ? "late" : "in-time");
    router.refresh();
  }

  /** One write per box, ids kept until all are in, so that a broken line can be taken up again. */
  async function tellAll(content: object) {
    let late = false;
    for (const boxId of boxIds) {
      const id = eventIds.current.get(boxId) ?? v7();
      eventIds.current.set(boxId, id);
      const body = { id, boxId, ...content };
      const sent = await sendWrite<{ late: boolean }>("/api/v1/box-events", body, growingMessages.noSignal);
      if (!sent.ok) return sent;
      late ||= sent.value.late;
    }
    return { ok: true as const, late };
  }

  return (
    <details
      className="mb-4 max-w-[44em] print:hidden"
      onToggle={(event) => event.currentTarget.open && when === "" && setWhen(localNow())}
    >
      <summary className="min-h-[44px] cursor-pointer py-2.5 font-semibold">{title}</summary>
      <form onSubmit={tell} noValidate className="pt-2">
        {lead ? <p className="mb-3 text-quiet">{lead}</p> : null}
        <Field id={kindId} label={words.what} hint={words.otherwiseHint}>
          <select id={kindId} name="kind" className={INPUT_LOOK} aria-describedby={`${kindId}-hint`}>
            <option value="">{growingMessages.chooseFirst}</option>
            {TOPICS.map((topic) => (
              <optgroup key={topic} label={words.whatGroups[topic]}>
                {BOX_EVENTS_BY_TOPIC[topic].map((kind) => (
                  <option key={kind} value={kind}>
                    {vocabularyMessages.event[kind]}
                  </option>
                ))}
              </optgroup>
            ))}
          </select>
        </Field>
        <MomentField name="when" label={words.when} hint={words.whenHint} value={when} onChange={setWhen} />
        <TextField name="note" label={words.note} maxLength={NOTE_MAX_LENGTH} />
        <ProblemNotice problem={problem} />
        {saved ? <Notice kind="ok">{saved === "late" ? words.savedLate : words.saved}</Notice> : null}
        <Button kind="quiet" disabled={busy}>
          {busy ? growingMessages.sending : words.save}
        </Button>
      </form>
    </details>
  );
}
