import type { ReactNode } from "react";

/** What is rarely wanted of a set, one line until it is opened. */
export function Fold({ title, children }: { title: string; children: ReactNode }) {
  return (
    <details className="max-w-[44em] border-t border-line">
      <summary className="min-h-[48px] cursor-pointer py-3 font-semibold">{title}</summary>
      <div className="pt-1 pb-4">{children}</div>
    </details>
  );
}
