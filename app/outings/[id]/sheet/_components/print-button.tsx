"use client";

import { Button } from "@/lib/ui/components/button";
import { setMessages } from "@/lib/ui/messages/en/sets";

export function PrintButton() {
  return (
    <Button type="button" onClick={() => window.print()}>
      {setMessages.sheet.print}
    </Button>
  );
}
