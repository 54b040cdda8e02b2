"use client";

import { useEffect, useRef } from "react";

/** A heading that takes focus once it says something new: the form that focus was in has gone with its step. */
export function StepTitle({ title }: { title: string }) {
  const heading = useRef<HTMLHeadingElement>(null);
  const said = useRef(title);
  useEffect(() => {
    if (said.current === title) return;
    said.current = title;
    heading.current?.focus();
  }, [title]);
  return (
    <h2 ref={heading} tabIndex={-1} className="mb-1 text-[1.5rem]">
      {title}
    </h2>
  );
}
