import { currentActor } from "@/lib/auth/session";
import { csvDownload } from "@/lib/http/csv-download";
import { problem } from "@/lib/http/problem";
import { leadRows } from "@/lib/services/lead/results";
import { inTransaction } from "@/lib/services/run";

interface Context {
  params: Promise<{ id: string }>;
}

/** The rows behind a closed trial's figures, for its lead. */
export async function GET(_request: Request, { params }: Context): Promise<Response> {
  const { id } = await params;
  const actor = await currentActor();
  if (!actor) return problem("SIGN_IN_FIRST");
  const found = await inTransaction((tx) => leadRows(tx, actor, id));
  if (!found.ok) return problem(found.reason);
  const { slug, csv } = found.value;
  return csvDownload(`grainlot-${slug}-rows`, csv);
}
