"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useEffect, useState } from "react";
import type { SiteView } from "@/lib/services/growing/sites";
import { Button } from "@/lib/ui/components/button";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { isStaleRefusal, StaleNotice } from "@/lib/ui/components/stale-notice";
import { TextAreaField } from "@/lib/ui/components/text-area-field";
import { TextField } from "@/lib/ui/components/text-field";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { placeMessages as words } from "@/lib/ui/messages/en/places";
import { useWrite } from "@/lib/ui/use-write";
import { NOTE_MAX_LENGTH } from "@/shared/vocabulary/text";
import { PermissionField } from "./permission-field";
import { TraitFields, typedTraits } from "./trait-fields";
import { changedWhereabouts, typedWhereabouts, WhereaboutsFields } from "./whereabouts-fields";

type Site = Omit<SiteView, "groups" | "climate" | "koppenClass" | "standing">;

/** The input of each answer, by its path in what is sent (`answerPath`). */
const INPUTS: Readonly<Record<string, string>> = {
  name: "name",
  latitude: "latitude",
  longitude: "longitude",
  elevationM: "elevation",
  "ownNormals.monthlyMeanC": "ownTemperature",
  "ownNormals.monthlyRainMm": "ownRain",
  permission: "permission",
  "traits.litterDepthCm.value": "litterDepth",
  "traits.litterDepthCm": "litterDepth",
  note: "note",
};

/** A fault's path without where it stands in a list, alike for a new place and a change. */
const answerPath = (path: string) => path.replace("whereabouts.", "").replace(/\.\d+$/, "");

/** A new place, or a change of `site`. */
export function SiteForm({ site }: { site?: Site }) {
  const router = useRouter();
  const { busy, problem, send, anew } = useWrite<{ siteId: string }>(
    site ? "/api/v1/site-changes" : "/api/v1/sites",
  );
  const [basedOn, setBasedOn] = useState(site?.version);
  /** Counts how often what was typed was dropped. */
  const [dropped, setDropped] = useState(0);
  useEffect(() => {
    if (problem && isStaleRefusal(problem)) router.refresh();
  }, [problem, router]);
  const errorOf = (path: string) => {
    const fault = problem?.fields.find((field) => answerPath(field.path) === path);
    return fault && fieldWords(fault.code);
  };
  const inputs = Object.fromEntries(
    problem?.fields.map(({ path }) => [path, INPUTS[answerPath(path)] ?? ""]) ?? [],
  );

  async function save(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const details = {
      name: form.get("name"),
      traits: typedTraits(form),
      permission: form.get("permission") ?? undefined,
      note: form.get("note"),
    };
    const saved = await send(
      site
        ? {
            ...details,
            siteId: site.id,
            basedOn,
            whereabouts: site.hasSets ? undefined : changedWhereabouts(form, site),
          }
        : { ...details, ...typedWhereabouts(form) },
    );
    if (!saved) return;
    router.push(`/sites/${saved.siteId}`);
    router.refresh();
  }

  function goOnFromStanding() {
    anew();
    setBasedOn(site?.version);
  }

  return (
    <form key={dropped} onSubmit={save} noValidate>
      <TextField
        id="name"
        name="name"
        label={words.name}
        hint={words.nameHint}
        error={errorOf("name")}
        maxLength={80}
        defaultValue={site?.name}
      />
      <h2 className="mt-7 mb-2">{words.whereTitle}</h2>
      {site?.hasSets ? (
        <p className="mb-5 text-quiet">{words.whereStays}</p>
      ) : (
        <WhereaboutsFields standing={site} errorOf={errorOf} />
      )}
      <PermissionField standing={site?.permission} error={errorOf("permission")} />
      <details className="mb-5" open={site !== undefined}>
        <summary className="min-h-[44px] cursor-pointer py-2 text-[1.25rem] font-bold">
          {words.likeTitle}
        </summary>
        <p className="mb-4 max-w-[38em] text-quiet">{words.likeLead}</p>
        <TraitFields standing={site?.traits} errorOf={errorOf} />
        <TextAreaField
          id="note"
          name="note"
          label={words.noteLabel}
          hint={words.noteHint}
          error={errorOf("note")}
          maxLength={NOTE_MAX_LENGTH}
          defaultValue={site?.note ?? ""}
        />
      </details>
      {basedOn === site?.version ? (
        <ProblemNotice problem={problem} inputs={inputs} />
      ) : (
        <StaleNotice
          words={words}
          standing={null}
          onKeepMine={goOnFromStanding}
          onTakeStanding={() => {
            goOnFromStanding();
            setDropped(dropped + 1);
          }}
        />
      )}
      <Button disabled={busy}>{busy ? growingMessages.sending : site ? words.saveChange : words.save}</Button>
    </form>
  );
}
