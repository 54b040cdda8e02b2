import type { MethodsBasis } from "@/lib/services/lead/release";
import { dayWords, percent } from "@/lib/ui/format";
import { releaseMessages } from "@/lib/ui/messages/en/release";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { BoxEventKind } from "@/shared/vocabulary/box";

const words = releaseMessages.methods;

/** How a trial was done, as plain text that becomes part of its release: one paragraph a line, empty lines between. */
export function methodsText({ facts, releasedAt, trial, amendments, analysis }: MethodsBasis): string {
  const { flow, losses, joinedGroups, ledger, planHash, seal, engine, command } = facts;
  const day = (moment: string | Date): string => dayWords(new Date(moment).toISOString().slice(0, 10));
  const groupName = (code: string): string =>
    vocabularyMessages.climateGroupName(trial.grouping.find((group) => group.code === code)!);
  const paragraphs = [
    words.heading(trial.title),
    ...(trial.invented ? [words.invented] : []),
    words.question(trial.question),
    words.course(day(facts.trial.openedAt), day(facts.trial.closedAt), day(releasedAt)),
    words.design,
    words.plan(planHash),
    ...(amendments.length === 0 ? [words.noAmendments] : []),
    ...amendments.map(({ number, madeAt, reason, hash }) =>
      words.amendment(number, day(madeAt), reason, hash),
    ),
    words.seal(seal),
    words.ledger(ledger.draws, ledger.lastHash),
    words.flow(flow),
    ...(losses.length > 0
      ? [
          words.losses(
            losses.map(({ kind, boxes }) => `${vocabularyMessages.event[kind as BoxEventKind]}: ${boxes}`),
          ),
        ]
      : []),
    words.analysis(engine),
    words.level(percent(analysis.analysis?.level ?? analysis.level)),
    words.command(command),
    words.rows,
    ...(joinedGroups ? [releaseMessages.joined(joinedGroups.of.map(groupName))] : []),
    releaseMessages.ledgerNote,
    words.cautions,
  ];
  return `${paragraphs.join("\n\n")}\n`;
}
