"use client";

import { Button } from "@/lib/ui/components/button";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { DraftNote } from "@/lib/ui/drafts/draft-note";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { BoxPicks, type NamedBox } from "./box-picks";
import { ReportExtras } from "./report-extras";
import { type Told, useReport } from "./use-report";

const words = stepMessages.fetch;

interface Props {
  readonly outingId: string;
  readonly boxes: readonly NamedBox[];
  /** Whether the day has come. */
  readonly isDue: boolean;
}

/** That boxes were fetched, all at once unless some stay out. */
export function FetchPanel({ outingId, boxes, isDue }: Props) {
  const report = useReport(outingId, "fetch", () => ({ without: [] as readonly string[], happened: "" }));
  const { draft, state, change, busy, problem, send } = report;
  const fetched = boxes.filter(({ id }) => !draft.without.includes(id));

  async function tell() {
    const told = fetched.flatMap(({ id: boxId }): Told[] => [
      { boxId, kind: "fetched" },
      ...(draft.happened === "nothing" ? [{ boxId, kind: "nothing-happened" } as const] : []),
    ]);
    await send(told);
  }

  return (
    <>
      <ChoiceField
        name="happened"
        stacked
        legend={words.happened}
        value={draft.happened}
        onChange={(event) => change({ happened: event.target.value })}
        options={[
          { value: "nothing", label: words.happenings.nothing },
          { value: "something", label: words.happenings.something },
        ]}
      />
      {draft.happened === "something" ? <p className="mb-3">{words.something}</p> : null}
      <ReportExtras title={words.more} report={report}>
        <BoxPicks boxes={boxes} without={draft.without} onChange={(without) => change({ without })} />
      </ReportExtras>
      <ProblemNotice problem={problem} />
      <DraftNote state={state} />
      <Button
        type="button"
        kind={isDue ? "main" : "quiet"}
        className="w-full"
        disabled={busy || fetched.length === 0}
        onClick={tell}
      >
        {busy
          ? stepMessages.sending
          : fetched.length === boxes.length
            ? words.all(fetched.length)
            : words.some(fetched.length)}
      </Button>
    </>
  );
}
