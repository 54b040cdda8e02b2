import { createHash } from "node:crypto";
import { headers } from "next/headers";
import type { ReactNode } from "react";
import { keptMarkup } from "@/lib/ui/kept-markup";
import { ReadyMarkup } from "./ready-markup";

interface Props {
  /** All that `children` are drawn of, written out: another text is drawn anew. */
  readonly of: string;
  /** Plain components only: they don't wait, use no hooks and do nothing in the browser. */
  readonly children: ReactNode;
}

/**
 * Draws a large part of a page once, and then puts in its markup as it stands. React would make every element of it
 * twice for each request, and write it into the page twice: as HTML, and as data for the browser's React. So a
 * document holds the HTML alone; only the script that changes pages in a browser, known by its Fetch Metadata (W3C),
 * gets the data.
 */
export async function DrawnOnce({ of, children }: Props) {
  const { name, markup } = await drawOnce(of, children);
  const asksByScript = (await headers()).get("sec-fetch-dest") === "empty";
  return <ReadyMarkup key={name} name={name} markup={asksByScript ? markup : null} />;
}

/** The markup of `what`, drawn now only if none of the same `of` is kept, and the name it is kept by. */
export async function drawOnce(
  of: string,
  what: ReactNode,
): Promise<{ readonly name: string; readonly markup: string }> {
  const name = createHash("sha256").update(of).digest("base64url");
  const kept = isChanging ? undefined : keptMarkup().get(name);
  if (kept !== undefined) return { name, markup: kept };
  const { renderToStaticMarkup } = await import("react-dom/server"); // Next refuses it at the top of a file
  const markup = renderToStaticMarkup(what);
  keptMarkup().set(name, markup);
  return { name, markup };
}

/** While somebody works on the components, the same data may be drawn otherwise. */
const isChanging = process.env.NODE_ENV === "development";
