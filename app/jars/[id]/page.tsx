import type { Metadata } from "next";
import { notFound } from "next/navigation";
import { requireActor } from "@/lib/auth/session";
import { sugarForGrainG } from "@/lib/engine/jar/water-activity";
import { type JarView, jarView } from "@/lib/services/growing/jars";
import { reading } from "@/lib/services/run";
import { ButtonLink } from "@/lib/ui/components/button";
import { Facts } from "@/lib/ui/components/facts";
import { PageHeading } from "@/lib/ui/components/page-heading";
import { decimal, momentWords } from "@/lib/ui/format";
import { jarMessages as words } from "@/lib/ui/messages/en/jars";
import { isUuid } from "@/shared/schemas/id";
import { JarCautions } from "../_components/jar-cautions";
import { Syrup } from "../_components/syrup";
import { DeleteJar } from "./_components/delete-jar";

const HOUR_MS = 3_600_000;

export const metadata: Metadata = { title: words.title };

export default async function JarPage({ params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const actor = await requireActor(`/jars/${id}`);
  const jar = isUuid(id) ? await reading((tx) => jarView(tx, actor, id)) : null;
  if (!jar) notFound();
  const grainG = jar.boxes.reduce((sum, box) => sum + box.grainG, 0);
  const isLittle = jar.sugarG < sugarForGrainG(grainG);
  return (
    <>
      <PageHeading
        title={words.jarOf(jar.boxes.map(({ code }) => code).join(", "))}
        lead={words.amounts(grainG, jar.sugarG)}
      />
      <JarCautions />
      <Facts
        items={[
          { label: words.madeAt, value: momentWords(jar.madeAt) },
          { label: words.contents, value: lines(jar.boxes.map((box) => words.inBox(box.code, box.grainG))) },
          { label: words.sinceOpening, value: lines(jar.boxes.map((box) => waitOf(box, jar.madeAt))) },
          {
            label: words.ratio,
            value: `${words.ratioOf(decimal(jar.sugarG / grainG, 2))}${isLittle ? `. ${words.little}` : ""}`,
          },
        ]}
      />
      <p className="mb-5 max-w-[44em] text-quiet">{words.wait}</p>
      <h2 className="mb-1">{words.activity}</h2>
      {jar.syrup ? <Syrup syrup={jar.syrup} /> : <p className="mb-5">{words.activityUnknown}</p>}
      <p className="flex flex-wrap gap-3">
        <ButtonLink href={`/jars/${jar.id}/edit`}>{words.edit}</ButtonLink>
        <ButtonLink kind="quiet" href="/jars">
          {words.title}
        </ButtonLink>
        <DeleteJar jarId={jar.id} />
      </p>
    </>
  );
}

function lines(texts: readonly string[]) {
  return texts.map((text) => (
    <span key={text} className="block">
      {text}
    </span>
  ));
}

/** How long the grain waited before it met the sugar. */
function waitOf({ code, openedAt }: JarView["boxes"][number], madeAt: Date): string {
  if (!openedAt) return words.openingUnknown(code);
  return words.hours(code, Math.max(0, Math.round((madeAt.getTime() - openedAt.getTime()) / HOUR_MS)));
}
