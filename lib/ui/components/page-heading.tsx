import type { ReactNode } from "react";

/** The one heading of a page, with a sentence or two under it. */
export function PageHeading({ title, lead }: { title: ReactNode; lead?: ReactNode }) {
  return (
    <div className="mb-6">
      <h1 className="max-w-[21em]">{title}</h1>
      {lead ? <p className="mt-2 max-w-[38em] text-quiet">{lead}</p> : null}
    </div>
  );
}
