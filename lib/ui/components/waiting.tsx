"use client";

import { usePathname, useSearchParams } from "next/navigation";
import { useEffect, useState } from "react";
import { doneWaiting, onWaiting } from "@/lib/ui/waiting";

/** What comes sooner needs no words. */
const SHOWN_AFTER_MS = 300;
/** Where the way led back to the same page, nothing tells that it came. */
const LONGEST_MS = 15_000;

/**
 * Says that what was asked for is on its way: a line along the upper edge, over whatever page stands there, so that
 * nothing moves when the next one comes. Pages have no loading page of their own, which would send the answer's
 * status before it is known.
 */
export function Waiting({ words }: { words: string }) {
  const [isShown, setShown] = useState(false);
  const place = `${usePathname()}?${useSearchParams()}`;
  useEffect(() => {
    let timer: ReturnType<typeof setTimeout> | undefined;
    return onWaiting((isWaiting) => {
      clearTimeout(timer);
      if (!isWaiting) return setShown(false);
      timer = setTimeout(() => {
        setShown(true);
        timer = setTimeout(doneWaiting, LONGEST_MS);
      }, SHOWN_AFTER_MS);
    });
  }, []);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another place is what was waited for
  useEffect(() => {
    doneWaiting();
  }, [place]);
  return (
    <div aria-live="polite" className="pointer-events-none fixed inset-x-0 top-0 z-20 print:hidden">
      {isShown ? (
        <>
          <span className="waiting-line block h-1 bg-act" />
          <span className="mx-auto mt-2 block w-fit rounded-[5px] bg-ink px-3.5 py-1.5 font-semibold text-ground">
            {words}
          </span>
        </>
      ) : null}
    </div>
  );
}
