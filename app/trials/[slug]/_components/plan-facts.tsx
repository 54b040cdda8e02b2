import type { ReactNode } from "react";
import type { PlanHistory } from "@/lib/services/plan-history";
import type { TrialView } from "@/lib/services/read-trials";
import { Facts } from "@/lib/ui/components/facts";
import { PlanSheet } from "@/lib/ui/components/plan-sheet";
import { momentWords, whole } from "@/lib/ui/format";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";

interface Props {
  readonly trial: TrialView;
  readonly history: PlanHistory;
  readonly recipeName: (code: string) => string;
}

/** What the trial promised when it opened. */
export function PlanFacts({ trial, history, recipeName }: Props) {
  const { planHash, openedAt, closedAt } = trial;
  return (
    <PlanSheet
      plan={history.plan}
      recipeName={recipeName}
      endsNow={history.ends}
      more={[
        { label: words.openedAt, value: momentWords(openedAt) },
        ...(closedAt ? [{ label: words.closedAt, value: momentWords(closedAt) }] : []),
        { label: words.planHash, value: <Code>{planHash}</Code> },
      ]}
    />
  );
}

/** What shows that chance, and nobody, picked the recipes. */
export function ProofFacts({ trial }: { trial: TrialView }) {
  const { seal, drawCount, lastHash, openedSecret } = trial;
  return (
    <Facts
      items={[
        { label: words.seal, value: <Code>{seal}</Code> },
        { label: words.draws, value: whole(drawCount) },
        { label: words.lastHash, value: <Code>{lastHash}</Code> },
        { label: words.secret, value: openedSecret ? <Code>{openedSecret}</Code> : words.secretKept },
      ]}
    />
  );
}

function Code({ children }: { children: ReactNode }) {
  return <span className="break-all font-mono font-normal">{children}</span>;
}
