import { Notice } from "@/lib/ui/components/notice";
import { whole } from "@/lib/ui/format";
import { proofMessages as words } from "@/lib/ui/messages/en/proof";
import type { PublishedHead } from "@/shared/schemas/draw";
import type { CheckOutcome } from "./check-ledger";

/** What a check found, and what it means. */
export function CheckAnswer({ outcome, published }: { outcome: CheckOutcome; published: PublishedHead }) {
  if (outcome.kind === "refused") {
    return (
      <Notice kind="due">
        <p>{words.refusals[outcome.reason]}</p>
        {outcome.at === null ? null : <p className="font-normal">{words.faulty(outcome.at)}</p>}
      </Notice>
    );
  }
  if (outcome.kind === "other-trial") return <Notice kind="due">{words.otherTrial(outcome.title)}</Notice>;
  const { verdict, draws } = outcome;
  if (!verdict.ok) {
    const { what, meaning } = words.problems[verdict.problem];
    return <Fails drawNumber={verdict.drawNumber} what={what} meaning={meaning} />;
  }
  if (verdict.head.draws > published.draws) {
    const { what, meaning } = words.longer;
    return <Fails drawNumber={published.draws + 1} what={what} meaning={meaning} />;
  }
  if (!verdict.replayed) return <Notice kind="info">{words.chainOnly(whole(draws))}</Notice>;
  return (
    <Notice kind="ok">
      <p>{draws === 0 ? words.noDraws : words.verified(whole(draws))}</p>
      <p className="font-normal">{words.verifiedMore}</p>
    </Notice>
  );
}

interface FailsProps {
  /** Null when it is no one draw's. */
  readonly drawNumber: number | null;
  readonly what: string;
  readonly meaning: string;
}

function Fails({ drawNumber, what, meaning }: FailsProps) {
  return (
    <Notice kind="due">
      <p>{words.fails}</p>
      {drawNumber === null ? null : <p>{words.atDraw(whole(drawNumber))}</p>}
      <p className="font-normal">
        {what} {meaning}
      </p>
      <p className="font-normal">{words.whatNow}</p>
    </Notice>
  );
}
