import type { ReactNode } from "react";
import type { Head } from "./head-of";
import { StepTitle } from "./step-title";

/** The one thing a set waits for. */
export function StepCard({ title, lead, children }: Head & { readonly children?: ReactNode }) {
  return (
    <section className="mb-8 max-w-[44em] rounded-[5px] border-2 border-act p-4">
      <StepTitle title={title} />
      {[lead].flat().map((text) => (
        <p key={text} className="mb-3">
          {text}
        </p>
      ))}
      {children}
    </section>
  );
}
