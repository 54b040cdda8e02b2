"use client";

import { ActionForm } from "@/lib/ui/components/action-form";
import { designMessages } from "@/lib/ui/messages/en/design";
import { leadMessages } from "@/lib/ui/messages/en/lead";
import { takeFigures } from "../actions";

const words = designMessages.take;
const outcomes = { ...leadMessages.outcomes, ...words.outcomes };

interface Props {
  readonly trialId: string;
  /** The page's query with the design to take; the server works it out again. */
  readonly query: string;
  readonly design: string;
  /** Whether the plan holds just these figures. */
  readonly stands: boolean;
}

export function TakeFigures({ trialId, query, design, stands }: Props) {
  return (
    <section className="mt-8">
      <h2 className="mb-2">{words.title}</h2>
      <p className="mb-3 max-w-[44em]">{words.lead(design)}</p>
      {stands ? <p className="mb-3 font-semibold text-ok">{words.stands}</p> : null}
      <ActionForm action={takeFigures} words={outcomes} submit={words.submit}>
        {() => (
          <>
            <input type="hidden" name="trialId" value={trialId} />
            <input type="hidden" name="query" value={query} />
          </>
        )}
      </ActionForm>
    </section>
  );
}
