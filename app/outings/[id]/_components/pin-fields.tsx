"use client";

import { useState } from "react";
import { Button } from "@/lib/ui/components/button";
import { NumberField } from "@/lib/ui/components/number-field";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import type { SentProblem } from "@/lib/ui/send";
import { pinGivenNow, type TypedPin } from "./typed-pin";

const words = stepMessages.pin;

interface Props {
  readonly value: TypedPin | null;
  readonly onChange: (pin: TypedPin | null) => void;
  readonly problem: SentProblem | null;
}

/**
 * The exact spot of a set, asked for where the boxes stand and nowhere else. A phone's position is read only after
 * its owner has said to be there; that needs no signal.
 */
export function PinFields({ value, onChange, problem }: Props) {
  const [state, setState] = useState<"asking" | "taking" | "failed">("asking");

  function take() {
    if (!navigator.geolocation) return setState("failed");
    setState("taking");
    navigator.geolocation.getCurrentPosition(
      ({ coords }) => {
        setState("asking");
        const [latitude, longitude] = [coords.latitude.toFixed(5), coords.longitude.toFixed(5)];
        const accuracyM = Math.round(coords.accuracy);
        onChange(pinGivenNow({ latitude, longitude, accuracyM, source: "phone" }));
      },
      () => setState("failed"),
      { enableHighAccuracy: true, timeout: 45_000, maximumAge: 0 },
    );
  }

  return (
    <fieldset className="mb-5 max-w-[38em]">
      <legend className="font-semibold">{words.title}</legend>
      <p className="mb-2 text-quiet">{words.lead}</p>
      {value ? (
        <Given value={value} onChange={onChange} problem={problem} />
      ) : (
        <>
          <p className="mb-2 font-semibold">{words.ask}</p>
          <p className="flex flex-wrap gap-2.5">
            <Button type="button" kind="quiet" disabled={state === "taking"} onClick={take}>
              {words.yes}
            </Button>
            <Button
              type="button"
              kind="quiet"
              onClick={() =>
                onChange(pinGivenNow({ latitude: "", longitude: "", accuracyM: null, source: "typed" }))
              }
            >
              {words.no}
            </Button>
          </p>
        </>
      )}
      <p role="status" className="mt-2 text-quiet">
        {state === "asking" ? null : state === "taking" ? words.taking : words.failed}
      </p>
    </fieldset>
  );
}

function Given({ value, onChange, problem }: Props & { value: TypedPin }) {
  const errorOf = (name: string) => {
    const fault = problem?.fields.find(({ path }) => path === `pin.${name}`);
    return fault && fieldWords(fault.code);
  };
  return (
    <>
      {value.source === "phone" ? (
        <p className="mb-2 font-semibold">{words.taken(value.accuracyM)}</p>
      ) : (
        (["latitude", "longitude"] as const).map((name) => (
          <NumberField
            key={name}
            id={`pin-${name}`}
            name={name}
            inputMode="text"
            className="max-w-[11em]"
            label={words[name]}
            hint={words[`${name}Hint`]}
            unit={words.degrees}
            error={errorOf(name)}
            value={value[name]}
            onChange={(event) => onChange({ ...value, [name]: event.target.value })}
          />
        ))
      )}
      <Button type="button" kind="quiet" onClick={() => onChange(null)}>
        {words.drop}
      </Button>
    </>
  );
}
