import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { boxToGrade } from "@/lib/services/growing/outing-view";
import { reading } from "@/lib/services/run";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { isUuid } from "@/shared/schemas/id";
import { GradeStepper } from "./_components/grade-stepper";

interface Props {
  params: Promise<{ id: string; position: string }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: growingMessages.grade.title((await params).position) };
}

export default async function GradePage({ params }: Props) {
  const { id, position } = await params;
  const actor = await requireActor(`/outings/${id}/boxes/${position}/grade`);
  const box =
    isUuid(id) && /^\d{1,2}$/.test(position)
      ? await reading((tx) => boxToGrade(tx, actor, id, Number(position)))
      : null;
  if (!box) notFound();
  return (
    <GradeStepper
      outingId={box.outingId}
      boxId={box.boxId}
      code={box.code}
      isOpened={box.isOpened}
      standing={box.standing && { revision: box.standing.revision, measures: box.standing.measures }}
      recipeName={box.recipe && vocabularyMessages.recipeName(box.recipe.content)}
      nextPosition={box.nextPosition}
    />
  );
}
