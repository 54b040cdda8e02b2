import { currentActor } from "@/lib/auth/session";
import { csvDownload } from "@/lib/http/csv-download";
import { problem } from "@/lib/http/problem";
import { figuresCsv } from "@/lib/services/figures-csv";
import { leadResults } from "@/lib/services/lead/results";
import { reading } from "@/lib/services/run";

interface Context {
  params: Promise<{ id: string }>;
}

/** The figures of the lead's own results page, small cells included. */
export async function GET(_request: Request, { params }: Context): Promise<Response> {
  const { id } = await params;
  const actor = await currentActor();
  if (!actor) return problem("SIGN_IN_FIRST");
  const results = await reading((tx) => leadResults(tx, actor, id));
  if (!results.ok) return problem(results.reason);
  const { trial, pool } = results.value;
  if (!pool.stored) return problem(pool.status === "closed" ? "RESULTS_ON_THEIR_WAY" : "RESULTS_HIDDEN");
  return csvDownload(`grainlot-${trial.slug}-lead-figures`, figuresCsv(pool.stored.result));
}
