"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useRef, useState } from "react";
import { v7 } from "uuid";
import { Button } from "@/lib/ui/components/button";
import { CheckField } from "@/lib/ui/components/check-field";
import { NumberField } from "@/lib/ui/components/number-field";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { SelectField } from "@/lib/ui/components/select-field";
import { TextField } from "@/lib/ui/components/text-field";
import { typedNumber } from "@/lib/ui/form-numbers";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { useWrite } from "@/lib/ui/use-write";
import { BOX_KINDS, COVERS, GUARDS } from "@/shared/vocabulary/box";
import type { GrainId } from "@/shared/vocabulary/grain";

const words = setMessages.plan;
const unchosen = { value: "", label: growingMessages.chooseFirst };

interface Props {
  readonly trialId: string;
  readonly boxesMin: number;
  readonly boxesMax: number;
  readonly grains: readonly GrainId[];
  readonly sites: readonly { readonly id: string; readonly name: string; readonly fault: string | null }[];
}

/** Everything a draw needs to know beforehand. The boxes' ids are made here and kept over repeated sending. */
export function PlanForm({ trialId, boxesMin, boxesMax, grains, sites }: Props) {
  const router = useRouter();
  const { busy, problem, send } = useWrite<{ outingId: string }>("/api/v1/outings");
  const boxIds = useRef<string[]>([]);
  const [permissionMissing, setPermissionMissing] = useState(false);
  const errorOf = (path: string) => {
    const fault = problem?.fields.find((field) => field.path === path || field.path.startsWith(`${path}.`));
    return fault && fieldWords(fault.code);
  };
  const possible = sites.filter(({ fault }) => fault === null);

  async function save(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const isPermitted = form.get("permission") === "on";
    setPermissionMissing(!isPermitted);
    if (!isPermitted) return;
    const count = Number(form.get("boxes"));
    while (boxIds.current.length < count) boxIds.current.push(v7());
    const text = (name: string) => form.get(name) ?? "";
    const planned = await send({
      trialId,
      siteId: text("site"),
      day: text("day"),
      boxKind: text("boxKind"),
      innerLengthCm: typedNumber(text("innerLength")),
      innerWidthCm: typedNumber(text("innerWidth")),
      grainDepthCm: typedNumber(text("grainDepth")),
      cover: text("cover"),
      guard: text("guard"),
      boxes: boxIds.current.slice(0, count).map((id) => ({ id })),
      grainsAtHand: form.getAll("grain"),
    });
    if (planned) router.push(`/outings/${planned.outingId}`);
  }

  return (
    <form onSubmit={save} noValidate>
      <SelectField
        name="site"
        label={words.place}
        error={errorOf("siteId") && growingMessages.chooseFirst}
        defaultValue={possible.length === 1 ? possible[0]!.id : ""}
        options={[unchosen, ...possible.map(({ id, name }) => ({ value: id, label: name }))]}
      />
      {sites.some(({ fault }) => fault !== null) ? (
        <ul className="mb-5 text-quiet">
          {sites.flatMap(({ id, name, fault }) =>
            fault === null
              ? []
              : [
                  <li key={id}>
                    {fault === "SITE_OUTSIDE_REGION" ? words.placeOutside(name) : words.placeNoGroup(name)}
                  </li>,
                ],
          )}
        </ul>
      ) : null}
      <TextField name="day" type="date" label={words.day} error={errorOf("day")} />
      <SelectField
        name="boxes"
        label={words.boxes}
        hint={words.boxesHint(boxesMin, boxesMax)}
        error={errorOf("boxes")}
        options={Array.from({ length: boxesMax - boxesMin + 1 }, (_, i) => ({
          value: String(boxesMin + i),
          label: String(boxesMin + i),
        }))}
      />
      <fieldset className="mb-5">
        <legend className="mb-1 font-semibold">{words.grains}</legend>
        <p className="mb-1 text-[0.9375rem] text-quiet">{words.grainsHint}</p>
        {errorOf("grainsAtHand") ? (
          <p className="mb-1 font-semibold text-due">{errorOf("grainsAtHand")}</p>
        ) : null}
        {grains.map((grain) => (
          <CheckField key={grain} name="grain" value={grain} label={vocabularyMessages.grain[grain]} />
        ))}
      </fieldset>
      <SelectField
        name="boxKind"
        label={words.boxKind}
        error={errorOf("boxKind")}
        options={[
          unchosen,
          ...BOX_KINDS.map((value) => ({ value, label: vocabularyMessages.boxKind[value] })),
        ]}
      />
      <NumberField
        name="innerLength"
        label={words.innerLength}
        unit={words.cm}
        error={errorOf("innerLengthCm")}
      />
      <NumberField
        name="innerWidth"
        label={words.innerWidth}
        unit={words.cm}
        error={errorOf("innerWidthCm")}
      />
      <NumberField
        name="grainDepth"
        label={words.grainDepth}
        hint={words.grainDepthHint}
        unit={words.cm}
        error={errorOf("grainDepthCm")}
      />
      <SelectField
        name="cover"
        label={words.cover}
        error={errorOf("cover")}
        options={[unchosen, ...COVERS.map((value) => ({ value, label: vocabularyMessages.cover[value] }))]}
      />
      <SelectField
        name="guard"
        label={words.guard}
        error={errorOf("guard")}
        options={[unchosen, ...GUARDS.map((value) => ({ value, label: vocabularyMessages.guard[value] }))]}
      />
      <CheckField
        name="permission"
        label={words.permission}
        hint={words.ticks}
        error={permissionMissing ? words.permissionNeeded : undefined}
      />
      <ProblemNotice problem={problem} />
      <Button disabled={busy}>{busy ? growingMessages.sending : words.save}</Button>
    </form>
  );
}
