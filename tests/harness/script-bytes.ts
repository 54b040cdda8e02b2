import { get } from "node:http";

/**
 * The scripts a page has to load at first: those its HTML names, as an element or as where a part of the page is to be
 * found; those for browsers that know no modules left out.
 */
export function firstScripts(html: string): string[] {
  const forOld = (html.match(/<script\b[^>]*\snomodule\b[^>]*>/gi) ?? []).join();
  const named = new Set(html.match(/\/_next\/static\/chunks\/[\w-]+\.js/g) ?? []);
  return [...named].filter((path) => !forOld.includes(path));
}

/** Bytes of scripts as they are sent to whoever takes gzip, without the answers' headers. */
export async function sentBytes(origin: string, paths: readonly string[]): Promise<number> {
  const sizes = await Promise.all(paths.map((path) => bodyBytes(new URL(path, origin))));
  return sizes.reduce((sum, size) => sum + size, 0);
}

function bodyBytes(address: URL): Promise<number> {
  return new Promise((resolve, reject) => {
    get(address, { headers: { "accept-encoding": "gzip" } }, (response) => {
      if (response.statusCode !== 200) {
        reject(new Error(`${address} answered ${response.statusCode}, so nothing is measured.`));
      }
      let bytes = 0;
      response.on("data", (part: Buffer) => {
        bytes += part.length;
      });
      response.on("error", reject);
      response.on("end", () => resolve(bytes));
    }).on("error", reject);
  });
}
