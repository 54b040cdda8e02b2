"use client";

import { useRouter } from "next/navigation";
import { useRef } from "react";
import { Button } from "@/lib/ui/components/button";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { localNow, withOffset } from "@/lib/ui/moments";
import { useWrite } from "@/lib/ui/use-write";

const words = setMessages.outing;

/** Leaves out the box with the highest number where one box is missing. */
export function BoxShortForm({ outingId, lastCode }: { outingId: string; lastCode: string }) {
  const router = useRouter();
  const { busy, problem, send } = useWrite("/api/v1/missing-boxes");
  const occurredAt = useRef<string | null>(null);

  async function leaveOut() {
    occurredAt.current ??= withOffset(localNow());
    if (!(await send({ outingId, occurredAt: occurredAt.current }))) return;
    occurredAt.current = null;
    router.refresh();
  }

  return (
    <>
      <p className="mb-3">{words.shortLead(lastCode)}</p>
      <ProblemNotice problem={problem} />
      <Button type="button" kind="quiet" disabled={busy} onClick={leaveOut}>
        {busy ? growingMessages.sending : words.shortButton(lastCode)}
      </Button>
    </>
  );
}
