"use client";

import { useEffect, useRef } from "react";
import type { SentProblem } from "@/lib/ui/send";
import { Notice } from "./notice";

interface Props {
  readonly problem: SentProblem | null;
  /** The input of each path, so that the summary leads to the answer at fault. */
  readonly inputs?: Readonly<Record<string, string>>;
}

/** What is wrong with what was sent and what to do; answers at fault are named in words. Takes focus. */
export function ProblemNotice({ problem, inputs = {} }: Props) {
  const notice = useRef<HTMLDivElement>(null);
  useEffect(() => {
    if (problem) notice.current?.focus();
  }, [problem]);
  if (!problem) return null;
  const faults = new Map(problem.fields.map(({ path, words }) => [words, inputs[path]]));
  return (
    <div ref={notice} tabIndex={-1}>
      <Notice kind="due">
        <p>{problem.title}</p>
        <p className="font-normal">{problem.detail}</p>
        {faults.size > 0 ? (
          <ul className="mt-1 list-disc pl-5 font-normal">
            {[...faults].map(([words, input]) => (
              <li key={words}>{input ? <a href={`#${input}`}>{words}</a> : words}</li>
            ))}
          </ul>
        ) : null}
      </Notice>
    </div>
  );
}
