import { decimal, percent, whole } from "@/lib/ui/format";
import { designMessages } from "@/lib/ui/messages/en/design";
import type { PlannerAdvice } from "@/shared/schemas/planner-result";

const words = designMessages.advice;

/** One piece of advice as a sentence. */
export function adviceWords(advice: PlannerAdvice): string {
  switch (advice.code) {
    case "FEWER_ARMS":
      return words.FEWER_ARMS(advice.arms, advice.growers, advice.armsThatDo);
    case "MORE_GROWERS":
      return words.MORE_GROWERS(advice.growers, reach(advice.growersThatDo));
    case "ENOUGH":
      return words.ENOUGH(percent(advice.power));
    case "GROWERS_BEFORE_SETS":
      return words.GROWERS_BEFORE_SETS(
        percent(advice.power),
        advice.growersInstead,
        advice.setsInstead,
        percent(advice.powerInstead),
      );
    case "MEET_AGAIN":
      return words.MEET_AGAIN(percent(advice.share), percent(advice.planned));
    case "NOT_SEPARABLE":
      return words.NOT_SEPARABLE(advice.setsPerGrower);
    case "NOT_CONNECTED":
      return words.NOT_CONNECTED(advice.sets, advice.setsNeeded);
    case "FEW_GROWERS":
      return words.FEW_GROWERS(advice.growers);
    case "EQUIVALENCE_FAR":
      return words.EQUIVALENCE_FAR(
        decimal(advice.margin, 2),
        percent(advice.power),
        reach(advice.growersThatDo),
      );
  }
}

function reach(growers: number | null): string | null {
  return growers === null ? null : whole(growers);
}

/** Sentences, each once, with the groups they are for; none named where it is for all. */
export function adviceByGroup(
  advice: readonly PlannerAdvice[],
  groupNames: ReadonlyMap<string, string>,
): { readonly sentence: string; readonly groups: readonly string[] }[] {
  const groupsOf = new Map<string, string[]>();
  for (const each of advice) {
    const sentence = adviceWords(each);
    groupsOf.set(sentence, [...(groupsOf.get(sentence) ?? []), groupNames.get(each.group) ?? each.group]);
  }
  return [...groupsOf].map(([sentence, groups]) => ({
    sentence,
    groups: groups.length === groupNames.size ? [] : groups,
  }));
}
