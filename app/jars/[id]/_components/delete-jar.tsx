"use client";

import { useRouter } from "next/navigation";
import { Button } from "@/lib/ui/components/button";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { jarMessages as words } from "@/lib/ui/messages/en/jars";
import { useWrite } from "@/lib/ui/use-write";

export function DeleteJar({ jarId }: { jarId: string }) {
  const router = useRouter();
  const { busy, problem, send } = useWrite<unknown>("/api/v1/jars/removals");

  async function remove() {
    if (!window.confirm(words.deleteSure)) return;
    if (await send({ jarId })) {
      router.push("/jars");
      router.refresh();
    }
  }

  return (
    <>
      <Button type="button" kind="quiet" disabled={busy} onClick={remove}>
        {busy ? words.sending : words.delete}
      </Button>
      <ProblemNotice problem={problem} />
    </>
  );
}
