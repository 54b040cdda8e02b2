import { designMessages } from "@/lib/ui/messages/en/design";
import {
  DESIGN_KINDS,
  type PlannerDesign,
  type PlannerFigures,
  type PlannerResult,
} from "@/shared/schemas/planner-result";

/** Where figures hold: climate groups that expect the same growers and sets, or all of them together. */
export interface Place {
  readonly key: string;
  /** Its groups in words, in the middle of a sentence and as a heading. */
  readonly name: string;
  readonly heading: string;
  readonly figuresOf: (design: PlannerDesign) => PlannerFigures | null;
}

/** Groups with equal expectations share their figures, so that a trial planned alike everywhere is shown once. */
export function placesOf(result: PlannerResult, groupNames: ReadonlyMap<string, string>): Place[] {
  const [first] = result.designs;
  if (!first) return [];
  const alike = new Map<string, number[]>();
  first.groups.forEach(({ growers, setsPerGrower }, at) => {
    const key = `${growers}x${setsPerGrower}`;
    alike.set(key, [...(alike.get(key) ?? []), at]);
  });
  const places = [...alike].map(([key, ats]): Place => {
    const names = ats.map((at) => {
      const code = first.groups[at]!.group!;
      return groupNames.get(code) ?? code;
    });
    const everywhere = alike.size === 1 && names.length > 1;
    return {
      key,
      name: everywhere ? designMessages.inEach : names.join("; "),
      heading: everywhere ? designMessages.inEachHeading : names.join("; "),
      figuresOf: ({ groups }) => groups[ats[0]!] ?? null,
    };
  });
  if (!first.together) return places;
  const together = ({ together }: PlannerDesign) => together;
  const { together: name } = designMessages;
  return [...places, { key: "together", name, heading: name, figuresOf: together }];
}

/** A design's name in addresses. */
export function designKey({ kind, boxesPerSet }: Pick<PlannerDesign, "kind" | "boxesPerSet">): string {
  return `${kind}-${boxesPerSet}`;
}

export function designFromKey(key: string): Pick<PlannerDesign, "kind" | "boxesPerSet"> | null {
  const [name, boxes] = key.split("-");
  const kind = DESIGN_KINDS.find((each) => each === name);
  const boxesPerSet = Number(boxes);
  return kind && Number.isInteger(boxesPerSet) ? { kind, boxesPerSet } : null;
}
