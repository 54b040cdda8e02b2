"use client";

import { MomentField } from "@/lib/ui/components/moment-field";
import { TextField } from "@/lib/ui/components/text-field";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { stepMessages as words } from "@/lib/ui/messages/en/set-steps";
import { NOTE_MAX_LENGTH } from "@/shared/vocabulary/text";
import type { Report } from "./use-report";

/** What every report has, whatever its own answers are. */
export type AnyReport = Pick<Report<object>, "draft" | "problem"> & {
  readonly change: (part: { readonly when?: string; readonly note?: string }) => void;
};

/** Refusals of the time that was typed. */
const WRONG_TIMES: readonly string[] = [
  "MOMENT_IN_FUTURE",
  "MOMENT_BEFORE_OUTING",
  "FETCHED_BEFORE_SET_OUT",
  "OPENED_BEFORE_SET_OUT",
  "OPENED_BEFORE_FETCHED",
];

/** When what is told happened, with what the server found wrong with it. */
export function ReportMoment({ report: { draft, change, problem } }: { report: AnyReport }) {
  const fault = problem?.fields.find(({ path }) => path === "occurredAt");
  return (
    <MomentField
      name="when"
      label={words.when}
      hint={words.whenHint}
      error={
        problem && WRONG_TIMES.includes(problem.reason) ? problem.title : fault && fieldWords(fault.code)
      }
      value={draft.when}
      onChange={(when) => change({ when })}
    />
  );
}

/** Own words to a report. */
export function ReportNote({ report: { draft, change } }: { report: AnyReport }) {
  return (
    <TextField
      name="note"
      label={words.note}
      hint={words.noteHint}
      maxLength={NOTE_MAX_LENGTH}
      value={draft.note}
      onChange={(event) => change({ note: event.target.value })}
    />
  );
}
