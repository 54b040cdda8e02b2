"use client";

import { useRouter } from "next/navigation";
import { Button } from "@/lib/ui/components/button";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { useWrite } from "@/lib/ui/use-write";

const words = setMessages.outing;

/** Commits the set and has its recipes drawn. */
export function DrawPanel({ outingId }: { outingId: string }) {
  const router = useRouter();
  const { busy, problem, send } = useWrite("/api/v1/draws");

  async function draw() {
    if (await send({ outingId })) router.refresh();
  }

  return (
    <section className="mb-8 max-w-[44em]">
      <h2 className="mb-1">{words.drawTitle}</h2>
      <p className="mb-3">{words.drawLead}</p>
      <ProblemNotice problem={problem} />
      <Button type="button" onClick={draw} disabled={busy}>
        {busy ? growingMessages.sending : words.drawButton}
      </Button>
    </section>
  );
}
