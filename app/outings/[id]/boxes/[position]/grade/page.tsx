import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { JarLink } from "@/app/jars/_components/jar-link";
import { requireActor } from "@/lib/auth/session";
import { boxRecord } from "@/lib/services/growing/box-record";
import { reading } from "@/lib/services/run";
import { GrowthPictureShapes } from "@/lib/ui/components/growth-picture-shapes";
import { placeMomentWords } from "@/lib/ui/format";
import { recordingMessages } from "@/lib/ui/messages/en/recording";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { isUuid } from "@/shared/schemas/id";
import { GradeResult } from "./_components/grade-result";
import { GradeStepper } from "./_components/grade-stepper";
import { takeWords } from "./_components/growth-words";
import { RecordHistory } from "./_components/record-history";

const words = recordingMessages.record;

interface Props {
  params: Promise<{ id: string; position: string }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: words.title((await params).position) };
}

export default async function GradePage({ params }: Props) {
  const { id, position } = await params;
  const actor = await requireActor(`/outings/${id}/boxes/${position}/grade`);
  const box =
    isUuid(id) && /^\d{1,2}$/.test(position)
      ? await reading((tx) => boxRecord(tx, actor, id, Number(position)))
      : null;
  if (!box) notFound();
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
              setPath={`/outings/${id}`}
              nextPosition={box.nextPosition}
            >
              <JarLink boxIds={[box.boxId]} />
            </GradeResult>
          ) : null
        }
      />
      <RecordHistory revisions={box.revisions} />
    </>
  );
}
