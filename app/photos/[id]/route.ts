import { currentHelper } from "@/lib/auth/helper";
import { currentActor } from "@/lib/auth/session";
import { problem } from "@/lib/http/problem";
import { readPhoto } from "@/lib/services/growing/photos";
import { reading } from "@/lib/services/run";
import { isUuid } from "@/shared/schemas/id";

/** A picture, for its owner, the leads of its trial and whoever helps with its set; never kept on the way, as it may be hidden at any time. */
export async function GET(_request: Request, { params }: { params: Promise<{ id: string }> }) {
  const { id } = await params;
  for (const reader of isUuid(id) ? [await currentActor(), await currentHelper()] : []) {
    const picture = reader && (await reading((tx) => readPhoto(tx, reader, id)));
    if (!picture) continue;
    return new Response(picture, {
      headers: { "content-type": "image/jpeg", "cache-control": "private, no-store" },
    });
  }
  return problem("NOT_FOUND");
}
