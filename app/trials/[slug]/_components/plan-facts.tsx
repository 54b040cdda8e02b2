import type { ReactNode } from "react";
import type { TrialView } from "@/lib/services/read-trials";
import { Facts } from "@/lib/ui/components/facts";
import { dayWords, momentWords, whole } from "@/lib/ui/format";
import { trialMessages as words } from "@/lib/ui/messages/en/trials";

/** What the trial promised when it opened. */
export function PlanFacts({ trial }: { trial: TrialView }) {
  const { plan, planHash, openedAt, closedAt } = trial;
  return (
    <Facts
      items={[
        { label: words.outcome, value: words.growth },
        {
          label: words.minimum,
          value: words.minimumOf(plan.minimum.boxesPerCell, plan.minimum.growersPerCell),
        },
        { label: words.boxesPerSet, value: words.boxesRange(plan.boxesPerSet.min, plan.boxesPerSet.max) },
        { label: words.end, value: dayWords(plan.endsOn) },
        { label: words.lossRule, value: words.lossAsDrawn },
        {
          label: words.earlyRule,
          value: words.earlyRules[plan.earlyCloseRule] ?? <Code>{plan.earlyCloseRule}</Code>,
        },
        {
          label: words.rubric,
          value: words.rubrics[plan.rubricVersion] ?? <Code>{plan.rubricVersion}</Code>,
        },
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
