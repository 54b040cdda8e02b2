"use client";

import { Button } from "@/lib/ui/components/button";
import { clearDrafts } from "@/lib/ui/drafts/clear-drafts";
import { helperMessages } from "@/lib/ui/messages/en/helpers";
import { stop } from "../actions";

const words = helperMessages.page;

/** @param keepDrafts where the phone is a grower's own, whose answers to other sets wait on it */
export function StopHelping({ keepDrafts }: { keepDrafts: boolean }) {
  return (
    <form
      action={async () => {
        if (!keepDrafts) await clearDrafts();
        await stop();
      }}
    >
      {keepDrafts ? null : <p className="mb-2 text-quiet">{words.stopHint}</p>}
      <Button kind="quiet">{words.stop}</Button>
    </form>
  );
}
