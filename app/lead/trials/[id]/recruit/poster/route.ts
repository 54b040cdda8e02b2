import { currentActor } from "@/lib/auth/session";
import { env } from "@/lib/env";
import { problem } from "@/lib/http/problem";
import { openedTrial } from "@/lib/services/lead/recruit";
import { reading } from "@/lib/services/run";
import { dayWords } from "@/lib/ui/format";
import { planMessages } from "@/lib/ui/messages/en/plan";
import { posterPdf } from "@/lib/ui/print/poster";

interface Context {
  params: Promise<{ id: string }>;
}

/** The trial's poster, for its lead. */
export async function GET(_request: Request, { params }: Context): Promise<Response> {
  const { id } = await params;
  const actor = await currentActor();
  if (!actor) return problem("SIGN_IN_FIRST");
  const found = await reading((tx) => openedTrial(tx, actor, id));
  if (!found.ok) return problem(found.reason);
  const { slug, title, question, invented, joinCode, regions, boxesMin, boxesMax, ends } = found.value;
  const pdf = await posterPdf({
    ...{ title, question, invented, joinCode },
    regions: regions.map(({ name }) => name),
    boxes: planMessages.boxesRange(boxesMin, boxesMax),
    until: dayWords(ends.endsOn),
    link: new URL(`/join/${encodeURIComponent(joinCode)}`, env().NEXTAUTH_URL).href,
  });
  return new Response(new Uint8Array(pdf), {
    headers: {
      "content-type": "application/pdf",
      "content-disposition": `inline; filename="grainlot-${slug}-poster.pdf"`,
      "cache-control": "private, no-store",
    },
  });
}
