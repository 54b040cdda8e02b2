import { problem } from "@/lib/http/problem";
import { ledgerText } from "@/lib/services/read-ledger";
import { readTrial } from "@/lib/services/read-trials";

interface Context {
  params: Promise<{ slug: string }>;
}

/** A closed trial's whole ledger, streamed. */
export async function GET(_request: Request, { params }: Context): Promise<Response> {
  const { slug } = await params;
  const trial = await readTrial(slug);
  if (!trial) return problem("NOT_FOUND");
  const ledger = ledgerText(trial);
  if (!ledger.ok) return problem(ledger.reason);
  return new Response(streamed(ledger.pieces), {
    headers: {
      "content-type": "application/json; charset=utf-8",
      "content-disposition": `attachment; filename="grainlot-${slug}-ledger.json"`,
      "cache-control": "no-cache",
    },
  });
}

/** Pieces are made as the reader takes them, and no longer once the reader has left. */
function streamed(pieces: AsyncGenerator<string>): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  return new ReadableStream({
    async pull(controller) {
      const { done, value } = await pieces.next();
      if (done) controller.close();
      else controller.enqueue(encoder.encode(value));
    },
    async cancel() {
      await pieces.return(undefined);
    },
  });
}
