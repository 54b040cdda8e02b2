const HERE = "http://here.invalid";

/** Where to go after signing in: a path of this site, or else the start page. Never another site. */
export function safeNextPath(next: string | undefined | null): string {
  if (!next?.startsWith("/") || !URL.canParse(next, HERE)) return "/";
  const url = new URL(next, HERE);
  return url.origin === HERE ? url.pathname + url.search + url.hash : "/";
}
