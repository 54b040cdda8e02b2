"use client";

import { Button } from "@/lib/ui/components/button";
import { setMessages } from "@/lib/ui/messages/en/sets";

/** Prints the sheet and the labels; everything else of the page stays off paper. */
export function PrintButton() {
  return (
    <Button type="button" kind="quiet" className="print:hidden" onClick={() => window.print()}>
      {setMessages.outing.print}
    </Button>
  );
}
