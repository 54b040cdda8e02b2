import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { jarChoices, jarView } from "@/lib/services/growing/jars";
import { reading } from "@/lib/services/run";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { jarMessages as words } from "@/lib/ui/messages/en/jars";
import { isUuid } from "@/shared/schemas/id";
import { JarForm } from "../../_components/jar-form";

export const metadata: Metadata = { title: words.editTitle };

export default async function EditJarPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const actor = await requireActor(`/jars/${id}/edit`);
  const jar = isUuid(id) ? await reading((tx) => jarView(tx, actor, id)) : null;
  if (!jar) notFound();
  const choices = await reading((tx) => jarChoices(tx, actor, id));
  return (
    <>
      <PageHeading title={words.editTitle} />
      <JarForm
        draftName={`jar/${id}`}
        path="/api/v1/jars/edits"
        jarId={id}
        choices={choices}
        start={{
          version: jar.version,
          boxes: jar.boxes.map(({ boxId, grainG }) => ({ boxId, grainG })),
          sugarG: jar.sugarG,
          madeAt: jar.madeAt.toISOString(),
        }}
      />
    </>
  );
}
