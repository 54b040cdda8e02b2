import type { RecordedGrade } from "@/lib/services/growing/grades";
import { ButtonLink } from "@/lib/ui/components/button";
import { Facts } from "@/lib/ui/components/facts";
import { Notice } from "@/lib/ui/components/notice";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

const words = growingMessages.grade;

interface Props {
  readonly recorded: RecordedGrade;
  readonly recipeName: string | null;
  readonly outingId: string;
  readonly nextPosition: number | null;
}

/** What the answers give, each with its reason, and only now the recipe. */
export function GradeResult({ recorded, recipeName, outingId, nextPosition }: Props) {
  return (
    <>
      <Notice kind="ok">{recorded.late ? words.sentLate : words.sent}</Notice>
      <h2 className="mb-1">{words.summaryTitle}</h2>
      <Facts
        items={[
          { label: words.growth, value: growthWords(recorded.take) },
          { label: words.cleanTake, value: cleanWords(recorded.cleanTake) },
          ...(recipeName ? [{ label: words.recipeWas, value: recipeName }] : []),
        ]}
      />
      <p className="flex flex-wrap gap-3">
        {nextPosition ? (
          <ButtonLink href={`/outings/${outingId}/boxes/${nextPosition}/grade`}>{words.nextBox}</ButtonLink>
        ) : null}
        <ButtonLink kind={nextPosition ? "quiet" : "main"} href={`/outings/${outingId}`}>
          {words.toSet}
        </ButtonLink>
      </p>
    </>
  );
}

function growthWords(take: RecordedGrade["take"]): string {
  if (take.take === null) return words.growthUnknown[take.reason];
  const { name, range } = vocabularyMessages.growth[take.take];
  const from = take.from === "PERCENT" ? words.growthFromPercent : words.growthFromClass;
  return `${name} (${range}), ${from}${take.classDiffers ? `. ${words.classDiffers}` : ""}`;
}

function cleanWords({ cleanTake, reasons }: RecordedGrade["cleanTake"]): string {
  const answer = cleanTake === null ? words.cleanUnknown : cleanTake ? words.cleanYes : words.cleanNo;
  return `${answer}: ${reasons.map((reason) => words.cleanReasons[reason]).join("; ")}`;
}
