import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { GradeResult } from "@/app/outings/[id]/boxes/[position]/grade/_components/grade-result";
import { GradeStepper } from "@/app/outings/[id]/boxes/[position]/grade/_components/grade-stepper";
import { currentHelper } from "@/lib/auth/helper";
import { boxRecord } from "@/lib/services/growing/box-record";
import { reading } from "@/lib/services/run";
import { GrowthPictureShapes } from "@/lib/ui/components/growth-picture-shapes";
import { recordingMessages } from "@/lib/ui/messages/en/recording";

const words = recordingMessages.record;

interface Props {
  params: Promise<{ position: string }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: words.title((await params).position), robots: { index: false } };
}

/** The record step for a helper: no recipe, no pictures, and nothing of what its grower recorded. */
export default async function HelperGradePage({ params }: Props) {
  const { position } = await params;
  const helper = await currentHelper();
  const box =
    helper && /^\d{1,2}$/.test(position)
      ? await reading((tx) => boxRecord(tx, helper, helper.onlyOutingId, Number(position)))
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
        photos={null}
        standing={standing ? { revision: standing.revision, measures: standing.measures } : null}
        standingWords={null}
        result={
          standing ? (
            <GradeResult
              revision={standing}
              recipeName={null}
              photos={[]}
              setPath="/h"
              nextPosition={box.nextPosition}
            />
          ) : null
        }
      />
    </>
  );
}
