"use client";

import type { ReactNode } from "react";
import { MomentField } from "@/lib/ui/components/moment-field";
import { TextField } from "@/lib/ui/components/text-field";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { stepMessages as words } from "@/lib/ui/messages/en/set-steps";
import { NOTE_MAX_LENGTH } from "@/shared/vocabulary/text";
import type { Report } from "./use-report";

type Common = Pick<Report<object>, "draft" | "problem"> & {
  readonly change: (part: { readonly when?: string; readonly note?: string }) => void;
};

/** What is rarely needed of a report, folded away: which boxes, another time, own words. */
export function ReportExtras({
  title,
  report: { draft, change, problem },
  children,
}: {
  title: string;
  report: Common;
  children?: ReactNode;
}) {
  const fault = problem?.fields.find(({ path }) => path === "occurredAt");
  return (
    <details className="mb-4">
      <summary className="min-h-[44px] cursor-pointer py-2.5 font-semibold">{title}</summary>
      {children}
      <MomentField
        name="when"
        label={words.when}
        hint={words.whenHint}
        error={fault && fieldWords(fault.code)}
        value={draft.when}
        onChange={(when) => change({ when })}
      />
      <TextField
        name="note"
        label={words.note}
        hint={words.noteHint}
        maxLength={NOTE_MAX_LENGTH}
        value={draft.note}
        onChange={(event) => change({ note: event.target.value })}
      />
    </details>
  );
}
