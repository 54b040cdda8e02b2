/** A table to be saved as a file; `name` without its ending. Never kept by anything in between. */
export function csvDownload(name: string, text: string): Response {
  return new Response(text, {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": `attachment; filename="${name}.csv"`,
      "cache-control": "private, no-store",
    },
  });
}
