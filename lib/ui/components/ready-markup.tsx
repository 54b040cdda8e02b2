"use client";

import { useEffect, useRef, useState } from "react";
import { keptMarkup } from "@/lib/ui/kept-markup";

interface Props {
  readonly name: string;
  /** Null where it came as HTML. */
  readonly markup: string | null;
}

/** The markup of `DrawnOnce`. What came as HTML is left as it is, and kept for coming back to this page. */
export function ReadyMarkup({ name, markup }: Props) {
  const place = useRef<HTMLDivElement>(null);
  const [found] = useState(() => keptMarkup().get(name) ?? "");
  useEffect(() => {
    const drawn = place.current!;
    // Browsers send no Fetch Metadata to a plain http address, so a change of page came without it.
    if (!drawn.hasChildNodes()) location.reload();
    return () => keptMarkup().set(name, drawn.innerHTML);
  }, [name]);
  return (
    <div
      ref={place}
      suppressHydrationWarning
      // biome-ignore lint/security/noDangerouslySetInnerHtml: React wrote it, every text escaped
      dangerouslySetInnerHTML={{ __html: markup ?? found }}
    />
  );
}
