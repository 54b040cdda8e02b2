"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { Button } from "@/lib/ui/components/button";
import { CheckField } from "@/lib/ui/components/check-field";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { Notice } from "@/lib/ui/components/notice";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { useWrite } from "@/lib/ui/use-write";
import { AGREEMENT_VERSION } from "@/shared/schemas/enrolment";

const words = growingMessages.join;

interface Props {
  readonly joinCode: string;
  readonly regions: readonly { id: string; name: string; capacity: number; seatsTaken: number }[];
  /** The region of the seat the household has already. */
  readonly householdRegionId: string | null;
}

/** Agreement and region. Nothing is ticked or chosen beforehand, except where there is one region only. */
export function JoinForm({ joinCode, regions, householdRegionId }: Props) {
  const router = useRouter();
  const { busy, problem, send } = useWrite("/api/v1/enrolments");
  const [fault, setFault] = useState<"agree" | "region" | null>(null);

  async function join(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const regionId = householdRegionId ?? form.get("region");
    if (!regionId) return setFault("region");
    if (form.get("agree") !== "on") return setFault("agree");
    setFault(null);
    if (await send({ joinCode, regionId, agreementVersion: AGREEMENT_VERSION })) router.refresh();
  }

  return (
    <form onSubmit={join} noValidate>
      {householdRegionId ? (
        <Notice kind="info">{words.householdHasSeat}</Notice>
      ) : (
        <ChoiceField
          name="region"
          legend={words.region}
          defaultValue={regions.length === 1 ? regions[0]!.id : undefined}
          error={fault === "region" ? fieldWords("enrolment.region.choice") : undefined}
          options={regions.map(({ id, name, capacity, seatsTaken }) => ({
            value: id,
            label: name,
            hint: words.seatsLeft(capacity - seatsTaken),
          }))}
        />
      )}
      <CheckField
        name="agree"
        label={words.agree}
        error={fault === "agree" ? words.agreeNeeded : undefined}
      />
      <ProblemNotice problem={problem} />
      <Button disabled={busy}>{busy ? growingMessages.sending : words.button}</Button>
    </form>
  );
}
