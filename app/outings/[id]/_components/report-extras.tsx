"use client";

import type { ReactNode } from "react";
import { type AnyReport, ReportMoment, ReportNote } from "./report-fields";

interface Props {
  readonly title: string;
  readonly report: AnyReport;
  readonly children?: ReactNode;
}

/** What is rarely needed of a report, folded away: which boxes, another time, own words. */
export function ReportExtras({ title, report, children }: Props) {
  return (
    <details className="mb-4">
      <summary className="min-h-[44px] cursor-pointer py-2.5 font-semibold">{title}</summary>
      {children}
      <ReportMoment report={report} />
      <ReportNote report={report} />
    </details>
  );
}
