import type { Metadata } from "next";
import { requireActor } from "@/lib/auth/session";
import { jarChoices } from "@/lib/services/growing/jars";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { jarMessages as words } from "@/lib/ui/messages/en/jars";
import { JarCautions } from "../_components/jar-cautions";
import { JarForm } from "../_components/jar-form";

export const metadata: Metadata = { title: words.newTitle };

interface Props {
  /** `box`: those to be ticked. */
  searchParams: Promise<{ box?: string | string[] }>;
}

export default async function NewJarPage({ searchParams }: Props) {
  const actor = await requireActor();
  const { box = [] } = await searchParams;
  const choices = await reading((tx) => jarChoices(tx, actor));
  const boxIds = [box].flat().filter((id) => choices.some(({ boxId }) => boxId === id));
  return (
    <>
      <PageHeading title={words.newTitle} />
      {choices.length === 0 ? (
        <>
          <p className="mb-6">{words.noBoxes}</p>
          <ButtonLink href="/outings">{words.toBoxes}</ButtonLink>
        </>
      ) : (
        <>
          <JarCautions />
          <JarForm
            draftName={`jar/${actor.growerId}/${boxIds.join("-")}`}
            path="/api/v1/jars"
            jarId={null}
            choices={choices}
            start={{
              version: null,
              boxes: boxIds.map((boxId) => ({ boxId, grainG: null })),
              sugarG: null,
              madeAt: null,
            }}
          />
        </>
      )}
    </>
  );
}
