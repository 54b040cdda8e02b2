import type { ReactNode } from "react";

/** A caution at the step that needs it: a thick rule, never colour alone. */
export function Caution({ title, children }: { title?: string; children: ReactNode }) {
  return (
    <div role="note" className="mb-5 max-w-[44em] border-l-[6px] border-due py-0.5 pl-3">
      {title ? <p className="font-bold text-due">{title}</p> : null}
      <div className="space-y-2">{children}</div>
    </div>
  );
}
