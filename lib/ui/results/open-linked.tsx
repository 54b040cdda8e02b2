"use client";

import { useEffect } from "react";

/** Opens every fold around the place the address points to, for browsers that don't by themselves. */
export function OpenLinked() {
  useEffect(() => {
    const open = () => {
      const place = document.getElementById(decodeURIComponent(location.hash.slice(1)));
      if (!place) return;
      for (let fold = place.closest("details"); fold; fold = fold.parentElement?.closest("details") ?? null) {
        fold.open = true;
      }
      place.scrollIntoView();
    };
    open();
    addEventListener("hashchange", open);
    return () => removeEventListener("hashchange", open);
  }, []);
  return null;
}
