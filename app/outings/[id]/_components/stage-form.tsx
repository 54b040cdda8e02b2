"use client";

import { Button } from "@/lib/ui/components/button";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { BoxEventKind } from "@/shared/vocabulary/box";
import type { NamedBox } from "./box-picks";
import { ReportMoment } from "./report-fields";
import { useReport } from "./use-report";

const words = stepMessages.happened;

interface Props {
  readonly outingId: string;
  readonly box: NamedBox;
  /** Steps of which nothing is on record. */
  readonly missing: readonly BoxEventKind[];
}

/** One step of one box, when it differs from the others or is told again. */
export function StageForm({ outingId, box, missing }: Props) {
  const report = useReport(outingId, `stage-${box.position}`, () => ({}));
  const { busy, problem, send } = report;
  if (missing.length === 0) return null;
  return (
    <details className="mb-2">
      <summary className="min-h-[44px] cursor-pointer py-2.5 font-semibold">{words.stageTitle}</summary>
      <p className="mb-2 text-quiet">{words.stageLead}</p>
      <ReportMoment report={report} />
      <ProblemNotice problem={problem} />
      <p className="flex flex-wrap gap-2.5">
        {missing.map((kind) => (
          <Button
            key={kind}
            type="button"
            kind="quiet"
            disabled={busy}
            onClick={() => void send([{ boxId: box.id, kind }])}
          >
            {busy ? stepMessages.sending : vocabularyMessages.event[kind]}
          </Button>
        ))}
      </p>
    </details>
  );
}
