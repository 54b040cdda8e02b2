"use client";

import { Button } from "@/lib/ui/components/button";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { DraftNote } from "@/lib/ui/drafts/draft-note";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { BoxPicks, type NamedBox } from "./box-picks";
import { ReportMoment } from "./report-fields";
import { useReport } from "./use-report";

const words = stepMessages.record;

/** When boxes were opened, where their growth is recorded later. */
export function OpenedPanel({ outingId, boxes }: { outingId: string; boxes: readonly NamedBox[] }) {
  const report = useReport(outingId, "opened", () => ({ without: [] as readonly string[] }));
  const { draft, state, change, busy, problem, send } = report;
  const opened = boxes.filter(({ id }) => !draft.without.includes(id));
  return (
    <details className="mt-4">
      <summary className="min-h-[44px] cursor-pointer py-2.5 font-semibold">{words.openedBefore}</summary>
      <p className="mb-3 text-quiet">{words.openedBeforeLead}</p>
      <BoxPicks boxes={boxes} without={draft.without} onChange={(without) => change({ without })} />
      <ReportMoment report={report} />
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
