import type { ReactNode } from "react";
import type { TrialView } from "@/lib/services/read-trials";
import {
  boxLimitWords,
  comparisonWords,
  fetchWords,
  meetAgainWords,
  SampleSize,
} from "@/lib/ui/components/plan-sheet";
import { decimal } from "@/lib/ui/format";
import { planMessages } from "@/lib/ui/messages/en/plan";
import { reportItemMessages as words } from "@/lib/ui/messages/en/report-items";

interface Item {
  readonly number: string;
  readonly name: string;
  readonly says: readonly ReactNode[];
}

/** Design, size, randomisation and masking as CONSORT 2025 numbers them (items 9 and 16–20). */
export function ReportItems({
  trial,
  recipeName,
}: {
  trial: TrialView;
  recipeName: (code: string) => string;
}) {
  return (
    <dl className="max-w-[56em]">
      {itemsOf(trial, recipeName).map(({ number, name, says }) => (
        <div key={number} className="grid gap-x-4 border-b border-line py-2.5 sm:grid-cols-[14em_1fr]">
          <dt className="flex gap-2">
            <span className="font-mono">{number}</span> <span className="font-semibold">{name}</span>
          </dt>
          <dd className="space-y-1">
            {says.map((sentence, at) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: sentences are drawn once, in order
              <p key={at}>{sentence}</p>
            ))}
          </dd>
        </div>
      ))}
    </dl>
  );
}

function itemsOf(trial: TrialView, recipeName: (code: string) => string): Item[] {
  const { plan } = trial;
  const now = "form" in plan ? plan : null;
  const hidden = now && now.looks.count > 1 ? words.hiddenToLooksSays : words.hiddenSays;
  const boxes = planMessages.boxesRange(plan.boxesPerSet.min, plan.boxesPerSet.max);
  return [
    {
      number: "9",
      name: words.design,
      says: [
        words.designSays(trial.recipes.length, boxes),
        now
          ? words.frameworkSays(comparisonWords(now, recipeName), decimal(now.margin, 2))
          : words.frameworkNone,
      ],
    },
    { number: "16a", name: words.size, says: [<SampleSize key="size" basis={now?.sampleSize ?? null} />] },
    {
      number: "16b",
      name: words.looks,
      says: [
        hidden,
        ...(now ? [words.looksSays(planMessages.looksWords(now.looks.count))] : []),
        words.earlySays(planMessages.earlyCloseRule[plan.earlyCloseRule] ?? plan.earlyCloseRule),
      ],
    },
    { number: "17a", name: words.sequence, says: [words.sequenceSays] },
    {
      number: "17b",
      name: words.restriction,
      says: [
        now ? words.restrictionSays(boxes) : words.restrictionOlderSays(boxes),
        ...(now
          ? [
              `${planMessages.meetAgain}: ${meetAgainWords(now)}.`,
              `${planMessages.fetch}: ${fetchWords(now)}.`,
              `${planMessages.boxLimits}: ${boxLimitWords(now)}.`,
            ]
          : []),
      ],
    },
    { number: "18", name: words.concealment, says: [words.concealmentSays] },
    { number: "19", name: words.access, says: [words.accessSays] },
    { number: "20a", name: words.masked, says: [words.maskedSays(hidden)] },
    { number: "20b", name: words.masking, says: [words.maskingSays] },
  ];
}
