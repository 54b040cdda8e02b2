"use client";

import { useEffect } from "react";

/**
 * Whoever follows a link to a place on the same page makes an entry of history without the router's state. Coming
 * back to it from another page, the router would leave that page standing: so the entry gets the state of the one
 * it was made from.
 */
export function InPageLinks() {
  useEffect(() => {
    let from = { page: "", state: null as unknown };
    const page = () => location.pathname + location.search;
    const note = () => {
      from = { page: page(), state: history.state };
    };
    const give = () => {
      if (history.state === null && from.page === page()) history.replaceState(from.state, "");
    };
    addEventListener("click", note, { capture: true });
    addEventListener("hashchange", give);
    return () => {
      removeEventListener("click", note, { capture: true });
      removeEventListener("hashchange", give);
    };
  }, []);
  return null;
}
