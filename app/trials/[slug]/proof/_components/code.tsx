import type { ReactNode } from "react";

/** A fingerprint or another text to compare letter by letter. */
export function Code({ children }: { children: ReactNode }) {
  return <span className="break-all font-mono font-normal">{children}</span>;
}
