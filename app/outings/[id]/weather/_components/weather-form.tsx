"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { Button } from "@/lib/ui/components/button";
import { Notice } from "@/lib/ui/components/notice";
import { NumberField } from "@/lib/ui/components/number-field";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { typedNumber } from "@/lib/ui/form-numbers";
import { weekdayWords } from "@/lib/ui/format";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { weatherMessages as words } from "@/lib/ui/messages/en/weather";
import { useWrite } from "@/lib/ui/use-write";
import type { WeatherDay } from "@/shared/schemas/weather";

const READINGS = ["minC", "maxC", "rainMm"] as const;
type Reading = (typeof READINGS)[number];

const LOOK: Readonly<Record<Reading, { label: string; unit: string; inputMode?: "text" }>> = {
  // Keypads for decimals may lack a minus.
  minC: { label: words.minimum, unit: words.celsius, inputMode: "text" },
  maxC: { label: words.maximum, unit: words.celsius, inputMode: "text" },
  rainMm: { label: words.rain, unit: words.millimetres },
};

const inputId = (place: number, reading: Reading): string => `day-${place}-${reading}`;

/** Three readings a day, none of them needed. What can't be read goes along as typed, so that it is named and stays. */
export function WeatherForm({
  outingId,
  days,
}: {
  readonly outingId: string;
  readonly days: readonly WeatherDay[];
}) {
  const router = useRouter();
  const { busy, problem, send } = useWrite("/api/v1/weather");
  const [isSaved, setSaved] = useState(false);

  async function save(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const typed = days.map(({ day }, place) => ({
      day,
      ...Object.fromEntries(
        READINGS.map((reading) => [reading, readingOf(form.get(inputId(place, reading)))]),
      ),
    }));
    setSaved(false);
    if (!(await send({ outingId, days: typed }))) return;
    setSaved(true);
    router.refresh();
  }

  const errorOf = (place: number, reading: Reading) => {
    const fault = problem?.fields.find(({ path }) => path === `days.${place}.${reading}`);
    return fault && fieldWords(fault.code);
  };
  const inputs = Object.fromEntries(
    days.flatMap((_, place) =>
      READINGS.map((reading) => [`days.${place}.${reading}`, inputId(place, reading)]),
    ),
  );
  return (
    <form onSubmit={save} noValidate>
      {days.map((day, place) => (
        <fieldset key={day.day} className="mb-2 border-t border-line pt-3">
          <legend className="font-bold">{weekdayWords(day.day)}</legend>
          <div className="grid grid-cols-2 gap-x-4 sm:grid-cols-3 sm:max-w-[36em]">
            {READINGS.map((reading) => (
              <NumberField
                key={reading}
                id={inputId(place, reading)}
                name={inputId(place, reading)}
                defaultValue={day[reading] ?? ""}
                error={errorOf(place, reading)}
                {...LOOK[reading]}
              />
            ))}
          </div>
        </fieldset>
      ))}
      <ProblemNotice problem={problem} inputs={inputs} />
      {isSaved && !problem ? (
        <div role="status">
          <Notice kind="info">{words.saved}</Notice>
        </div>
      ) : null}
      <Button disabled={busy}>{busy ? growingMessages.sending : words.save}</Button>
    </form>
  );
}

/** Null where nothing is typed; what is no number stays text. */
function readingOf(typed: FormDataEntryValue | null): number | string | null {
  if (typeof typed !== "string" || typed.trim() === "") return null;
  const value = typedNumber(typed);
  return Number.isNaN(value) ? typed : value;
}
