"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import { v7 } from "uuid";
import { type DraftState, useDraft } from "@/lib/ui/drafts/use-draft";
import { draftMessages } from "@/lib/ui/messages/en/drafts";
import { localNow, withOffset } from "@/lib/ui/moments";
import { type SentProblem, sendWrite } from "@/lib/ui/send";
import type { BoxEventDetail, SetReport } from "@/shared/schemas/box-event";
import type { BoxEventKind } from "@/shared/vocabulary/box";

/** What every report holds beside its own answers. */
interface Envelope {
  /** Of the write; kept until it is saved, so that sending again can't save twice. */
  readonly id: string;
  /** Of each event, by box and kind. */
  readonly eventIds: Readonly<Record<string, string>>;
  /** As typed; empty until it is pressed, and then when that was. */
  readonly when: string;
  readonly note: string;
}

export interface Told {
  readonly boxId: string;
  readonly kind: BoxEventKind;
  readonly detail?: BoxEventDetail;
}

export interface Report<Answers> {
  readonly draft: Answers & Envelope;
  readonly state: DraftState;
  readonly change: (part: Partial<Answers & Envelope>) => void;
  readonly busy: boolean;
  readonly problem: SentProblem | null;
  /** Whether it was saved; if not, `problem` says why and everything typed stays on this phone. */
  readonly send: (
    told: readonly Told[],
    more?: Partial<Pick<SetReport, "standing" | "pin">>,
  ) => Promise<boolean>;
}

/** One step told of several boxes of a set, kept on this phone from the first answer until it is saved. */
export function useReport<Answers extends object>(
  outingId: string,
  step: string,
  blank: () => Answers,
): Report<Answers> {
  const router = useRouter();
  const fresh = (): Answers & Envelope => ({ id: v7(), eventIds: {}, when: "", note: "", ...blank() });
  const { draft, state, change, forget } = useDraft(`set/${outingId}/${step}`, fresh);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<SentProblem | null>(null);

  async function send(told: readonly Told[], more: Partial<Pick<SetReport, "standing" | "pin">> = {}) {
    const key = ({ boxId, kind }: Told) => `${boxId}/${kind}`;
    const eventIds = { ...draft.eventIds };
    for (const event of told) eventIds[key(event)] ??= v7();
    const kept = change({ eventIds, when: draft.when || localNow() } as Partial<Answers & Envelope>);
    setBusy(true);
    setProblem(null);
    const body = {
      id: kept.id,
      outingId,
      occurredAt: withOffset(kept.when),
      told: told.map((event) => ({ detail: null, ...event, id: eventIds[key(event)] })),
      standing: null,
      pin: null,
      ...more,
      note: kept.note,
    };
    const sent = await sendWrite("/api/v1/set-reports", body, draftMessages.noSignal);
    setBusy(false);
    if (!sent.ok) {
      setProblem(sent.problem);
      return false;
    }
    forget(fresh());
    router.refresh();
    return true;
  }

  return { draft, state, change, busy, problem, send };
}
