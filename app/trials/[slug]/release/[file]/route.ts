import { problem } from "@/lib/http/problem";
import { readReleaseFile } from "@/lib/services/read-release";
import { readTrial } from "@/lib/services/read-trials";

interface Context {
  params: Promise<{ slug: string; file: string }>;
}

const TYPES: Readonly<Record<string, string>> = {
  csv: "text/csv; charset=utf-8",
  json: "application/json; charset=utf-8",
  txt: "text/plain; charset=utf-8",
};

/** One file of a trial's release, for anyone. It never changes, so whoever has it need not ask again. */
export async function GET(request: Request, { params }: Context): Promise<Response> {
  const { slug, file } = await params;
  const trial = await readTrial(slug);
  const found = trial && (await readReleaseFile(trial, file));
  if (!found) return problem("NOT_FOUND");
  const etag = `"${found.sha256}"`;
  const headers = { etag, "cache-control": "public, max-age=31536000, immutable" };
  if (request.headers.get("if-none-match")?.includes(etag))
    return new Response(null, { status: 304, headers });
  return new Response(found.text, {
    headers: {
      ...headers,
      "content-type": TYPES[file.split(".").at(-1)!]!,
      // By the name its manifest has, so that a check of hashes finds it.
      "content-disposition": `attachment; filename="${file}"`,
    },
  });
}
