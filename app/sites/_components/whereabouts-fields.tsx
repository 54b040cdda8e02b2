"use client";

import { useState } from "react";
import { Button } from "@/lib/ui/components/button";
import { NumberField } from "@/lib/ui/components/number-field";
import { TextField } from "@/lib/ui/components/text-field";
import { typedNumber } from "@/lib/ui/form-numbers";
import { placeMessages as words } from "@/lib/ui/messages/en/places";
import type { Whereabouts } from "@/shared/schemas/site";

/** To 0.1°, on this phone, before anything is kept or sent. */
const toTenth = (degrees: number) => (Math.round(degrees * 10) / 10).toFixed(1);

type Spot = Pick<Whereabouts, "latitude" | "longitude" | "elevationM">;

interface Props {
  readonly standing?: Spot;
  readonly errorOf: (field: string) => string | undefined;
}

/** Where a place is, to 0.1° and in metres of height, and its climate numbers where its owner has better ones. */
export function WhereaboutsFields({ standing, errorOf }: Props) {
  const [latitude, setLatitude] = useState(standing?.latitude.toFixed(1) ?? "");
  const [longitude, setLongitude] = useState(standing?.longitude.toFixed(1) ?? "");
  const [here, setHere] = useState<"done" | "failed" | null>(null);

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

  return (
    <>
      <p className="mb-2 max-w-[38em] text-quiet">{words.pinLater}</p>
      <p className="mb-2">
        <Button type="button" kind="quiet" onClick={takePosition}>
          {words.here}
        </Button>
      </p>
      <p role="status" className="mb-3 max-w-[38em] text-quiet">
        {here === "done" ? words.hereDone : here === "failed" ? words.hereFailed : words.hereHint}
      </p>
      <NumberField
        id="latitude"
        name="latitude"
        inputMode="text"
        label={words.latitude}
        hint={words.latitudeHint}
        unit={words.degrees}
        error={errorOf("latitude")}
        value={latitude}
        onChange={(event) => setLatitude(event.target.value)}
      />
      <NumberField
        id="longitude"
        name="longitude"
        inputMode="text"
        label={words.longitude}
        hint={words.longitudeHint}
        unit={words.degrees}
        error={errorOf("longitude")}
        value={longitude}
        onChange={(event) => setLongitude(event.target.value)}
      />
      <NumberField
        id="elevation"
        name="elevation"
        label={words.elevation}
        hint={words.elevationHint}
        unit={words.metres}
        error={errorOf("elevationM")}
        defaultValue={standing?.elevationM}
      />
      <details className="mb-5">
        <summary className="min-h-[44px] cursor-pointer py-2 font-semibold">{words.ownTitle}</summary>
        <p className="mb-3 text-quiet">{words.ownHint}</p>
        <TextField
          id="ownTemperature"
          name="ownTemperature"
          label={words.ownTemperature}
          error={errorOf("ownNormals.monthlyMeanC")}
        />
        <TextField
          id="ownRain"
          name="ownRain"
          label={words.ownRain}
          error={errorOf("ownNormals.monthlyRainMm")}
        />
      </details>
    </>
  );
}

/** What was typed; what is no number becomes NaN, so that the server names it. */
export function typedWhereabouts(form: FormData): Whereabouts {
  const monthlyMeanC = numbersOf(form.get("ownTemperature"));
  const monthlyRainMm = numbersOf(form.get("ownRain"));
  const hasOwn = monthlyMeanC.length > 0 || monthlyRainMm.length > 0;
  return {
    latitude: typedNumber(form.get("latitude")),
    longitude: typedNumber(form.get("longitude")),
    elevationM: typedNumber(form.get("elevation")),
    ...(hasOwn ? { ownNormals: { monthlyMeanC, monthlyRainMm } } : {}),
  };
}

/** What was typed if it says something new of a place; else undefined, so that its climate is not looked up anew. */
export function changedWhereabouts(form: FormData, standing: Spot): Whereabouts | undefined {
  const typed = typedWhereabouts(form);
  const isSame = (["latitude", "longitude", "elevationM"] as const).every(
    (part) => typed[part] === standing[part],
  );
  return isSame && !typed.ownNormals ? undefined : typed;
}

/** Numbers set apart by spaces or semicolons. */
function numbersOf(text: FormDataEntryValue | null): number[] {
  if (typeof text !== "string") return [];
  return text
    .split(/[\s;]+/)
    .filter((part) => part !== "")
    .map(typedNumber);
}
