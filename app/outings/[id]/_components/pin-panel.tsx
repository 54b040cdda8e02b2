"use client";

import { useRouter } from "next/navigation";
import { useState } from "react";
import type { OutingView } from "@/lib/services/growing/outing-view";
import { Button } from "@/lib/ui/components/button";
import { Facts } from "@/lib/ui/components/facts";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { placeMomentWords } from "@/lib/ui/format";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { useWrite } from "@/lib/ui/use-write";
import { PinFields } from "./pin-fields";
import { pinToSend, type TypedPin } from "./typed-pin";

const words = stepMessages.pin;

/** The spot that is kept of a set that is out: seen, taken anew or erased. */
export function PinPanel({ outingId, pin }: { outingId: string; pin: OutingView["pin"] }) {
  const router = useRouter();
  const { busy, problem, send } = useWrite("/api/v1/pins");
  const [typed, setTyped] = useState<TypedPin | null>(null);
  const [isChanging, setChanging] = useState(pin === null);

  async function keep(spot: TypedPin | null) {
    if (!(await send({ outingId, pin: spot && pinToSend(spot) }))) return;
    setTyped(null);
    setChanging(spot === null);
    router.refresh();
  }

  return (
    <>
      {pin ? (
        <Facts
          items={[
            {
              label: words.position,
              value: words.value(pin.latitude.toFixed(5), pin.longitude.toFixed(5)),
            },
            {
              label: words.takenAt,
              value: `${placeMomentWords(pin.takenAt, 0)} UTC, ${words.sources[pin.source]}`,
            },
          ]}
        />
      ) : (
        <p className="mb-3">{words.none}</p>
      )}
      {isChanging ? <PinFields value={typed} onChange={setTyped} problem={problem} /> : null}
      <ProblemNotice
        problem={problem}
        inputs={{ "pin.latitude": "pin-latitude", "pin.longitude": "pin-longitude" }}
      />
      <p className="flex flex-wrap gap-2.5">
        {typed ? (
          <Button type="button" disabled={busy} onClick={() => void keep(typed)}>
            {busy ? stepMessages.sending : words.keep}
          </Button>
        ) : null}
        {pin && !isChanging ? (
          <Button type="button" kind="quiet" onClick={() => setChanging(true)}>
            {words.change}
          </Button>
        ) : null}
        {pin ? (
          <Button type="button" kind="quiet" disabled={busy} onClick={() => void keep(null)}>
            {words.erase}
          </Button>
        ) : null}
      </p>
    </>
  );
}
