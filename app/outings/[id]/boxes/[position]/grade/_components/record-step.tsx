import type { ReactNode } from "react";
import type { BoxRecord } from "@/lib/services/growing/box-record";
import { GrowthPictureShapes } from "@/lib/ui/components/growth-picture-shapes";
import { placeMomentWords } from "@/lib/ui/format";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { GradeResult } from "./grade-result";
import { GradeStepper } from "./grade-stepper";
import { takeWords } from "./growth-words";
import { RecordHistory } from "./record-history";

interface Props {
  /** Holds only what whoever records it may know. */
  readonly box: BoxRecord;
  readonly setPath: string;
  /** What else can be done with the box once it is recorded. */
  readonly children?: ReactNode;
}

/** A box's questions, what its record gives, and every version of it; alike for its grower and for a helper. */
export function RecordStep({ box, setPath, children }: Props) {
  const [standing] = box.revisions;
  return (
    <>
      <GrowthPictureShapes />
      <GradeStepper
        key={box.boxId}
        boxId={box.boxId}
        code={box.code}
        isOpened={box.isOpened}
        photos={box.photos}
        standing={standing ? { revision: standing.revision, measures: standing.measures } : null}
        standingWords={
          standing
            ? `${takeWords(standing.growth.take)}; ${placeMomentWords(standing.recordedAt, standing.offsetMinutes)}`
            : null
        }
        result={
          standing ? (
            <GradeResult
              revision={standing}
              recipeName={box.recipe && vocabularyMessages.recipeName(box.recipe)}
              photos={box.photos}
              setPath={setPath}
              nextPosition={box.nextPosition}
            >
              {children}
            </GradeResult>
          ) : null
        }
      />
      <RecordHistory revisions={box.revisions} />
    </>
  );
}
