"use client";

import { type ReactNode, useEffect, useState } from "react";

interface Props {
  /** A link to it on the same page opens it. */
  readonly id: string;
  readonly title: string;
  /** What it holds, in one line. */
  readonly says: string;
  readonly startsOpen: boolean;
  readonly children: ReactNode;
}

/** A part of a page that needs no look any more; while the page is worked on it stays as it was left. */
export function FoldedPart({ id, title, says, startsOpen, children }: Props) {
  const [isOpen, setIsOpen] = useState(startsOpen);
  useEffect(() => {
    const openIfAsked = () => {
      if (location.hash === `#${id}`) setIsOpen(true);
    };
    openIfAsked();
    addEventListener("hashchange", openIfAsked);
    return () => removeEventListener("hashchange", openIfAsked);
  }, [id]);
  return (
    <details
      id={id}
      open={isOpen}
      onToggle={({ currentTarget }) => setIsOpen(currentTarget.open)}
      className="mb-6 border-t-2 border-line"
    >
      <summary className="min-h-[56px] cursor-pointer py-2.5">
        <h2 className="inline">{title}</h2>
        <span className="block text-quiet">{says}</span>
      </summary>
      <div className="pt-3">{children}</div>
    </details>
  );
}
