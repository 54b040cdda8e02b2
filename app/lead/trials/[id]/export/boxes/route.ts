import { currentActor } from "@/lib/auth/session";
import { csvDownload } from "@/lib/http/csv-download";
import { problem } from "@/lib/http/problem";
import { leadBoxes } from "@/lib/services/lead/export";
import { reading } from "@/lib/services/run";

interface Context {
  params: Promise<{ id: string }>;
}

/** A trial's boxes for its lead; recipes only once it has closed. */
export async function GET(_request: Request, { params }: Context): Promise<Response> {
  const { id } = await params;
  const actor = await currentActor();
  if (!actor) return problem("SIGN_IN_FIRST");
  const found = await reading((tx) => leadBoxes(tx, actor, id));
  if (!found.ok) return problem(found.reason);
  return csvDownload(`grainlot-${found.value.slug}-boxes`, found.value.csv);
}
