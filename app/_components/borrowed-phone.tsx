"use client";

import { useEffect } from "react";
import { signOut } from "../account/actions";

const MARK = "grainlot-borrowed";

interface Props {
  readonly borrowed: boolean;
  /** Given by the page's frame, so that no page carries the whole catalogue of accounts. */
  readonly words: { readonly title: string; readonly signOut: string };
}

async function forget(): Promise<void> {
  const { clearDrafts } = await import("@/lib/ui/drafts/clear-drafts");
  await clearDrafts();
  localStorage.removeItem(MARK);
}

/**
 * On a phone that is not its user's: a way out on every page, and nothing left behind. Where the browser was closed
 * without signing out, the first page afterwards throws away what was typed.
 */
export function BorrowedPhone({ borrowed, words }: Props) {
  useEffect(() => {
    if (borrowed) localStorage.setItem(MARK, "1");
    else if (localStorage.getItem(MARK)) void forget();
  }, [borrowed]);
  if (!borrowed) return null;
  return (
    <form
      action={async () => {
        await forget();
        await signOut();
      }}
      className="flex flex-wrap items-center justify-center gap-x-4 bg-panel px-[18px] print:hidden"
    >
      <p>{words.title}</p>
      <button type="submit" className="min-h-[44px] cursor-pointer px-2 font-bold text-act underline">
        {words.signOut}
      </button>
    </form>
  );
}
