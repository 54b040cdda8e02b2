import { currentActor } from "@/lib/auth/session";
import { problem } from "@/lib/http/problem";
import { readPhoto } from "@/lib/services/growing/photos";
import { reading } from "@/lib/services/run";
import { isUuid } from "@/shared/schemas/id";

/** A picture, for its owner and for the leads of its trial; never kept on the way, as it may be hidden at any time. */
export async function GET(_request: Request, { params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  const actor = await currentActor();
  const picture = actor && isUuid(id) ? await reading((tx) => readPhoto(tx, actor, id)) : null;
  if (!picture) return problem("NOT_FOUND");
  return new Response(picture, {
    headers: { "content-type": "image/jpeg", "cache-control": "private, no-store" },
  });
}
