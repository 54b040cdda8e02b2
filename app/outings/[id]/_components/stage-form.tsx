"use client";

import { useState } from "react";
import { Button } from "@/lib/ui/components/button";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { SelectField } from "@/lib/ui/components/select-field";
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
  const [picked, setPicked] = useState(missing[0]);
  const kind = missing.find((each) => each === picked) ?? missing[0];
  if (!kind) return null;
  return (
    <details className="mb-2">
      <summary className="min-h-[44px] cursor-pointer py-2.5 font-semibold">{words.stageTitle}</summary>
      <p className="mb-2 text-quiet">{words.stageLead}</p>
      <SelectField
        name={`stage-${box.position}`}
        label={words.stage}
        value={kind}
        onChange={(event) => setPicked(event.target.value as BoxEventKind)}
        options={missing.map((value) => ({ value, label: vocabularyMessages.event[value] }))}
      />
      <ReportMoment report={report} />
      <ProblemNotice problem={problem} />
      <Button type="button" kind="quiet" disabled={busy} onClick={() => void send([{ boxId: box.id, kind }])}>
        {busy ? stepMessages.sending : words.save}
      </Button>
    </details>
  );
}
