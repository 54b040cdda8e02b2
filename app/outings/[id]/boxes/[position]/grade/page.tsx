import type { Metadata } from "next";
import { JarLink } from "@/app/jars/_components/jar-link";
import { requireActor } from "@/lib/auth/session";
import { recordingMessages } from "@/lib/ui/messages/en/recording";
import { loadBox } from "./_components/load-box";
import { RecordStep } from "./_components/record-step";

interface Props {
  params: Promise<{ id: string; position: string }>;
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: recordingMessages.record.title((await params).position) };
}

export default async function GradePage({ params }: Props) {
  const { id, position } = await params;
  const actor = await requireActor(`/outings/${id}/boxes/${position}/grade`);
  const box = await loadBox(actor, id, position);
  return (
    <RecordStep box={box} setPath={`/outings/${id}`}>
      <JarLink boxIds={[box.boxId]} />
    </RecordStep>
  );
}
