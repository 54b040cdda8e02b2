"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import type { RegionSeats } from "@/lib/services/growing/join";
import { Button } from "@/lib/ui/components/button";
import { CheckField } from "@/lib/ui/components/check-field";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { Notice } from "@/lib/ui/components/notice";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { joinMessages as words } from "@/lib/ui/messages/en/join";
import { useWrite } from "@/lib/ui/use-write";
import { AGREEMENT_VERSION } from "@/shared/schemas/enrolment";

/** The input of each answer, for the summary to lead to. */
const INPUTS = { region: "region", agree: "agree" } as const;

interface Props {
  readonly joinCode: string;
  readonly regions: readonly RegionSeats[];
  /** The region of the seat the household has or has kept. */
  readonly ownRegionId: string | null;
  /** What to say about that seat. */
  readonly ownSeat: string;
  readonly submit: string;
}

/** Agreement and region. Nothing is ticked or chosen beforehand, except where there is one region only. */
export function JoinForm({ joinCode, regions, ownRegionId, ownSeat, submit }: Props) {
  const router = useRouter();
  const { busy, problem, send, refuse } = useWrite("/api/v1/enrolments");
  const [regionId, setRegionId] = useState(ownRegionId ?? (regions.length === 1 ? regions[0]!.id : ""));
  const chosen = regions.find(({ id }) => id === regionId);
  const mustWait = !ownRegionId && chosen !== undefined && isFull(chosen);
  const errorOf = (path: string) => problem?.fields.find((field) => field.path === path)?.words;

  async function join(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const faults = [];
    if (!regionId) {
      const code = "enrolment.region.choice";
      faults.push({ path: "region", code, words: fieldWords(code) });
    }
    if (form.get("agree") !== "on") faults.push({ path: "agree", code: "agree", words: words.agreeNeeded });
    if (faults.length > 0) return refuse(faults);
    const agreed = { joinCode, regionId, agreementVersion: AGREEMENT_VERSION, mayWait: mustWait };
    if (await send(agreed)) router.refresh();
  }

  return (
    <form onSubmit={join} noValidate>
      {ownRegionId ? (
        <Notice kind="info">{ownSeat}</Notice>
      ) : (
        <ChoiceField
          id={INPUTS.region}
          name="region"
          legend={words.region}
          value={regionId}
          onChange={(event) => setRegionId(event.target.value)}
          error={errorOf("region")}
          options={regions.map((region) => ({
            value: region.id,
            label: region.name,
            hint: isFull(region)
              ? words.full(region.waiting)
              : words.seatsLeft(region.capacity - region.seatsTaken),
          }))}
        />
      )}
      {mustWait ? <p className="mb-3 max-w-[44em]">{words.waitLead}</p> : null}
      <CheckField id={INPUTS.agree} name="agree" label={words.agree} error={errorOf("agree")} />
      <ProblemNotice problem={problem} inputs={INPUTS} />
      <Button disabled={busy}>{busy ? growingMessages.sending : mustWait ? words.waitButton : submit}</Button>
    </form>
  );
}

/** No seat for a newcomer: those who wait come first. */
function isFull({ capacity, seatsTaken, waiting }: RegionSeats): boolean {
  return seatsTaken >= capacity || waiting > 0;
}
