"use client";

import { useRouter } from "next/navigation";
import { useRef } from "react";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { localNow, withOffset } from "@/lib/ui/moments";
import { useWrite } from "@/lib/ui/use-write";

/** Takes an event back that was told wrongly; it stays in the history. */
export function TakeBackButton({ boxId, eventId, words }: { boxId: string; eventId: string; words: string }) {
  const router = useRouter();
  const { busy, problem, send } = useWrite("/api/v1/box-events");
  const occurredAt = useRef<string | null>(null);

  async function takeBack() {
    occurredAt.current ??= withOffset(localNow());
    const content = { boxId, kind: "withdrawal", withdrawsId: eventId, note: null };
    if (await send({ ...content, occurredAt: occurredAt.current })) router.refresh();
  }

  return (
    <>
      <button
        type="button"
        className="ml-auto min-h-[44px] cursor-pointer px-2 text-act underline disabled:opacity-60"
        aria-label={stepMessages.box.takeBackLabel(words)}
        disabled={busy}
        onClick={takeBack}
      >
        {stepMessages.box.takeBack}
      </button>
      <ProblemNotice problem={problem} />
    </>
  );
}
