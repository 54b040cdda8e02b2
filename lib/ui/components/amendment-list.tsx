import type { PlanAmendment, PlanChange } from "@/shared/schemas/plan-amendment";
import { dayWords, whole } from "../format";
import { planMessages } from "../messages/en/plan";

const words = planMessages.amendments;

/** What was added to a plan after it had opened, first to last. */
export function AmendmentList({ amendments }: { amendments: readonly PlanAmendment[] }) {
  if (amendments.length === 0) return <p className="mb-6">{words.none}</p>;
  return (
    <ol className="mb-6 max-w-[44em]">
      {amendments.map(({ number, madeAt, change, reason, hash }) => (
        <li key={number} className="border-b border-line py-2.5">
          <p className="text-quiet">
            <time dateTime={madeAt}>{words.numbered(number, dayWords(madeAt.slice(0, 10)))}</time>
          </p>
          <p className="whitespace-pre-line font-semibold">{changeWords(change)}</p>
          <p className="whitespace-pre-line">{words.reason(reason)}</p>
          <p className="text-[0.9375rem] text-quiet">
            {words.fingerprint} <span className="break-all font-mono">{hash}</span>
          </p>
        </li>
      ))}
    </ol>
  );
}

function changeWords(change: PlanChange): string {
  if ("endsOn" in change) return words.endsOn(dayWords(change.endsOn));
  if ("endsAtBoxes" in change) return words.endsAtBoxes(whole(change.endsAtBoxes));
  return change.clarification;
}
