"use client";

import { Button } from "@/lib/ui/components/button";
import { growingMessages } from "@/lib/ui/messages/en/growing";

/** Prints the sheet and the labels; everything else of the page stays off paper. */
export function PrintButton() {
  return (
    <Button type="button" kind="quiet" className="print:hidden" onClick={() => window.print()}>
      {growingMessages.outing.print}
    </Button>
  );
}
