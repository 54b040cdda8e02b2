import type { ReactNode } from "react";

interface Props {
  /** Where links to it lead. It stands inside the fold, so that browsers open the fold for whoever follows one. */
  id?: string;
  title: string;
  note?: ReactNode;
  open?: boolean;
  /** `part` of a page, or a `detail` within a part. */
  kind?: "part" | "detail";
  children: ReactNode;
}

const LOOK = {
  part: "mb-4 border-t-2 border-ink pt-3",
  detail: "mb-3 border-t border-line pt-2",
} as const;

/** A part that unfolds, so that the page stays short on a phone. */
export function Fold({ id, title, note, open, kind = "part", children }: Props) {
  const Heading = kind === "part" ? "h3" : "h4";
  return (
    <details open={open} className={`${LOOK[kind]} [&[open]>summary_.turn]:rotate-90`}>
      <summary className="min-h-11 cursor-pointer list-none py-1.5">
        <Heading className={kind === "part" ? "text-[1.125rem]" : "font-semibold"}>
          <span aria-hidden="true" className="turn mr-2 inline-block text-act">
            ▸
          </span>
          {title}
        </Heading>
        {note ? <span className="block text-quiet">{note}</span> : null}
      </summary>
      <div id={id} className="scroll-mt-28 pt-3">
        {children}
      </div>
    </details>
  );
}
