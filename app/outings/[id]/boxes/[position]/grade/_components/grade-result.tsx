import type { ReactNode } from "react";
import type { RecordedGrade } from "@/lib/services/growing/grades";
import { ButtonLink } from "@/lib/ui/components/button";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { recordingMessages } from "@/lib/ui/messages/en/recording";
import { growthFacts } from "./growth-words";

const words = recordingMessages.record;

interface Props {
  readonly recorded: RecordedGrade;
  /** What the box was cooked as; null for whoever should not learn it. */
  readonly recipeName: string | null;
  readonly setPath: string;
  readonly nextPosition: number | null;
  /** What can be done with the box now. */
  readonly children?: ReactNode;
}

/** What the answers give, each with its reason, and only now the recipe. */
export function GradeResult({ recorded, recipeName, setPath, nextPosition, children }: Props) {
  return (
    <>
      <Notice kind="ok">{recorded.late ? words.sentLate : words.sent}</Notice>
      <h2 className="mb-1">{words.summaryTitle}</h2>
      <Facts
        items={[
          ...growthFacts(recorded),
          ...(recipeName ? [{ label: words.recipeWas, value: recipeName }] : []),
        ]}
      />
      <p className="mb-4 flex flex-wrap gap-3">
        {nextPosition ? (
          <ButtonLink href={`${setPath}/boxes/${nextPosition}/grade`}>{words.nextBox}</ButtonLink>
        ) : null}
        <ButtonLink kind={nextPosition ? "quiet" : "main"} href={setPath}>
          {words.toSet}
        </ButtonLink>
      </p>
      {children}
    </>
  );
}
