import { currentActor } from "@/lib/auth/session";
import { problem } from "@/lib/http/problem";
import { ownDataDocument } from "@/lib/services/accounts/own-data";
import { reading } from "@/lib/services/run";

export async function GET(): Promise<Response> {
  const actor = await currentActor();
  if (!actor) return problem("SIGN_IN_FIRST");
  const document = await reading((tx) => ownDataDocument(tx, actor, new Date()));
  return new Response(JSON.stringify(document, null, 2), {
    headers: {
      "content-type": "application/json",
      "content-disposition": 'attachment; filename="grainlot-my-data.json"',
      "cache-control": "no-store",
    },
  });
}
