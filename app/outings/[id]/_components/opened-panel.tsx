"use client";

import { Button } from "@/lib/ui/components/button";
import { MomentField } from "@/lib/ui/components/moment-field";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { DraftNote } from "@/lib/ui/drafts/draft-note";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { BoxPicks, type NamedBox } from "./box-picks";
import { useReport } from "./use-report";

const words = stepMessages.record;

/** When boxes were opened, where their growth is recorded later. */
export function OpenedPanel({ outingId, boxes }: { outingId: string; boxes: readonly NamedBox[] }) {
  const { draft, state, change, busy, problem, send } = useReport(outingId, "opened", () => ({
    without: [] as readonly string[],
  }));
  const opened = boxes.filter(({ id }) => !draft.without.includes(id));
  const fault = problem?.fields.find(({ path }) => path === "occurredAt");
  return (
    <details className="mt-4">
      <summary className="min-h-[44px] cursor-pointer py-2.5 font-semibold">{words.openedBefore}</summary>
      <p className="mb-3 text-quiet">{words.openedBeforeLead}</p>
      <BoxPicks boxes={boxes} without={draft.without} onChange={(without) => change({ without })} />
      <MomentField
        name="opened-at"
        label={stepMessages.when}
        hint={stepMessages.whenHint}
        error={fault && fieldWords(fault.code)}
        value={draft.when}
        onChange={(when) => change({ when })}
      />
      <ProblemNotice problem={problem} />
      <DraftNote state={state} />
      <Button
        type="button"
        kind="quiet"
        disabled={busy || opened.length === 0}
        onClick={() => void send(opened.map(({ id }) => ({ boxId: id, kind: "opened" })))}
      >
        {busy ? stepMessages.sending : words.opened(opened.length)}
      </Button>
    </details>
  );
}
