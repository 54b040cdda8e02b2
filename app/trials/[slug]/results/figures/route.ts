import { currentActor } from "@/lib/auth/session";
import { csvDownload } from "@/lib/http/csv-download";
import { problem } from "@/lib/http/problem";
import { figuresCsv } from "@/lib/services/figures-csv";
import { readResults, readTrial } from "@/lib/services/read-trials";

interface Context {
  params: Promise<{ slug: string }>;
}

/** The figures of the results page, for whoever may see it. */
export async function GET(_request: Request, { params }: Context): Promise<Response> {
  const { slug } = await params;
  const trial = await readTrial(slug);
  if (!trial) return problem("NOT_FOUND");
  const results = await readResults(trial, undefined, await currentActor());
  if (results.state === "hidden") return problem("RESULTS_HIDDEN");
  if (results.state === "on-its-way") return problem("RESULTS_ON_THEIR_WAY");
  return csvDownload(`grainlot-${slug}-figures`, figuresCsv(results.result));
}
