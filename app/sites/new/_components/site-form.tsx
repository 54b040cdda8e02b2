"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { Button } from "@/lib/ui/components/button";
import { NumberField } from "@/lib/ui/components/number-field";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { TextField } from "@/lib/ui/components/text-field";
import { typedNumber } from "@/lib/ui/form-numbers";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { placeMessages } from "@/lib/ui/messages/en/places";
import { useWrite } from "@/lib/ui/use-write";

const words = placeMessages;

/** To 0.1°, on this phone, before anything is kept or sent. */
const toTenth = (degrees: number) => (Math.round(degrees * 10) / 10).toFixed(1);

export function SiteForm() {
  const router = useRouter();
  const { busy, problem, send } = useWrite("/api/v1/sites");
  const [latitude, setLatitude] = useState("");
  const [longitude, setLongitude] = useState("");
  const [here, setHere] = useState<"done" | "failed" | null>(null);
  const errorOf = (path: string) => {
    const fault = problem?.fields.find((field) => field.path === path);
    return fault && fieldWords(fault.code);
  };

  function takePosition() {
    if (!navigator.geolocation) return setHere("failed");
    navigator.geolocation.getCurrentPosition(
      ({ coords }) => {
        setLatitude(toTenth(coords.latitude));
        setLongitude(toTenth(coords.longitude));
        setHere("done");
      },
      () => setHere("failed"),
      { enableHighAccuracy: false, timeout: 20_000, maximumAge: 600_000 },
    );
  }

  async function save(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const monthlyMeanC = numbersOf(form.get("ownTemperature"));
    const monthlyRainMm = numbersOf(form.get("ownRain"));
    const hasOwn = monthlyMeanC.length > 0 || monthlyRainMm.length > 0;
    const saved = await send({
      name: form.get("name"),
      latitude: typedNumber(latitude),
      longitude: typedNumber(longitude),
      elevationM: typedNumber(form.get("elevation")),
      ...(hasOwn ? { ownNormals: { monthlyMeanC, monthlyRainMm } } : {}),
    });
    if (saved) router.push("/sites");
  }

  return (
    <form onSubmit={save} noValidate>
      <TextField
        name="name"
        label={words.name}
        hint={words.nameHint}
        error={errorOf("name")}
        maxLength={80}
      />
      <p className="mb-4">
        <Button type="button" kind="quiet" onClick={takePosition}>
          {words.here}
        </Button>
      </p>
      <p role="status" className="mb-3 text-quiet">
        {here === "done" ? words.hereDone : here === "failed" ? words.hereFailed : null}
      </p>
      <NumberField
        name="latitude"
        label={words.latitude}
        hint={words.latitudeHint}
        unit={words.degrees}
        error={errorOf("latitude")}
        value={latitude}
        onChange={(event) => setLatitude(event.target.value)}
      />
      <NumberField
        name="longitude"
        label={words.longitude}
        hint={words.longitudeHint}
        unit={words.degrees}
        error={errorOf("longitude")}
        value={longitude}
        onChange={(event) => setLongitude(event.target.value)}
      />
      <NumberField
        name="elevation"
        label={words.elevation}
        hint={words.elevationHint}
        unit={words.metres}
        error={errorOf("elevationM")}
      />
      <details className="mb-5">
        <summary className="min-h-[44px] cursor-pointer py-2 font-semibold">{words.ownTitle}</summary>
        <p className="mb-3 text-quiet">{words.ownHint}</p>
        <TextField
          name="ownTemperature"
          label={words.ownTemperature}
          error={errorOf("ownNormals.monthlyMeanC")}
        />
        <TextField name="ownRain" label={words.ownRain} error={errorOf("ownNormals.monthlyRainMm")} />
      </details>
      <ProblemNotice problem={problem} />
      <Button disabled={busy}>{busy ? growingMessages.sending : words.save}</Button>
    </form>
  );
}

/** Numbers set apart by spaces or semicolons; what is no number becomes NaN, so that the server names it. */
function numbersOf(text: FormDataEntryValue | null): number[] {
  if (typeof text !== "string") return [];
  return text
    .split(/[\s;]+/)
    .filter((part) => part !== "")
    .map(typedNumber);
}
