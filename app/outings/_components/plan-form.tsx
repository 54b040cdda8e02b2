"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useRef, useState } from "react";
import { v7 } from "uuid";
import type { PlanningView } from "@/lib/services/growing/planning-view";
import { Button } from "@/lib/ui/components/button";
import { CheckField } from "@/lib/ui/components/check-field";
import { ProblemNotice } from "@/lib/ui/components/problem-notice";
import { SelectField } from "@/lib/ui/components/select-field";
import { TextField } from "@/lib/ui/components/text-field";
import { typedNumber } from "@/lib/ui/form-numbers";
import { fieldWords } from "@/lib/ui/messages/en/fields";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { useWrite } from "@/lib/ui/use-write";
import type { OutingChange } from "@/shared/schemas/outing";
import type { BoxLimits } from "@/shared/schemas/plan";
import type { GrainId } from "@/shared/vocabulary/grain";
import { BoxFields } from "./box-fields";
import { PlacePermission } from "./place-permission";

const words = setMessages.plan;
const unchosen = { value: "", label: growingMessages.chooseFirst };

/** The input of each answer, by its path in what is sent. */
const INPUTS: Readonly<Record<string, string>> = {
  siteId: "site",
  day: "day",
  boxes: "boxes",
  grainsAtHand: "grains",
  boxKind: "box-kind",
  innerLengthCm: "inner-length",
  innerWidthCm: "inner-width",
  innerHeightCm: "inner-height",
  grainDepthCm: "grain-depth",
  cover: "cover",
  guard: "guard",
  permission: "permission",
};

/** The answer that a refusal of the service is about. */
const ANSWERS: Readonly<Record<string, keyof typeof INPUTS>> = {
  SITE_OUTSIDE_REGION: "siteId",
  CLASS_NOT_IN_TRIAL: "siteId",
  PERMISSION_NEEDED: "permission",
  DAY_IN_PAST: "day",
  DAY_AFTER_TRIAL: "day",
  BOX_COUNT_OUTSIDE_TRIAL: "boxes",
  BOX_KIND_OUTSIDE_TRIAL: "boxKind",
  DEPTH_OUTSIDE_TRIAL: "grainDepthCm",
  NO_ARM_POSSIBLE: "grainsAtHand",
  ONE_ARM_ONLY: "grainsAtHand",
};

interface Props {
  readonly trialId: string;
  readonly boxesMin: number;
  readonly boxesMax: number;
  readonly grains: readonly GrainId[];
  readonly limits: BoxLimits | null;
  readonly sites: PlanningView["sites"];
  /** The set to plan anew; absent for a new one. */
  readonly set?: Omit<OutingChange, "id">;
}

/** Everything a draw needs to know beforehand. The boxes' ids are made here and kept over repeated sending. */
export function PlanForm({ trialId, boxesMin, boxesMax, grains, limits, sites, set }: Props) {
  const router = useRouter();
  const { busy, problem, send, refuse } = useWrite<{ outingId: string }>(
    set ? "/api/v1/outing-changes" : "/api/v1/outings",
  );
  const boxIds = useRef<string[]>(set?.boxes.map(({ id }) => id) ?? []);
  const errorOf = (path: string) => {
    const fault = problem?.fields.find((field) => field.path === path || field.path.startsWith(`${path}.`));
    if (fault) return fault.words;
    return problem && ANSWERS[problem.reason] === path ? problem.title : undefined;
  };
  const possible = sites.filter(({ fault }) => fault === null);
  const [siteId, setSiteId] = useState(set?.siteId ?? (possible.length === 1 ? possible[0]!.id : ""));
  const site = possible.find(({ id }) => id === siteId);

  async function save(event: FormEvent<HTMLFormElement>) {
    event.preventDefault();
    const form = new FormData(event.currentTarget);
    const plan = typedPlan(form, boxIds.current);
    if (site && site.standing !== "said" && (!plan.permission || plan.permission === "not-yet")) {
      const permission = { path: "permission", code: "permission", words: words.permissionNeeded };
      return refuse([permission, ...(await planFaults({ trialId, ...plan }))]);
    }
    const planned = await send(
      set ? { outingId: set.outingId, basedOn: set.basedOn, ...plan } : { trialId, ...plan },
    );
    if (!planned) return;
    router.push(`/outings/${planned.outingId}`);
    router.refresh();
  }

  return (
    <form onSubmit={save} noValidate>
      <SelectField
        id={INPUTS.siteId}
        name="site"
        label={words.place}
        error={errorOf("siteId")}
        value={siteId}
        onChange={(event) => setSiteId(event.target.value)}
        options={[unchosen, ...possible.map(({ id, name }) => ({ value: id, label: name }))]}
      />
      <ImpossiblePlaces sites={sites} />
      {site ? <PlacePermission site={site} error={errorOf("permission")} /> : null}
      <TextField
        id={INPUTS.day}
        name="day"
        type="date"
        label={words.day}
        error={errorOf("day")}
        defaultValue={set?.day}
      />
      <SelectField
        id={INPUTS.boxes}
        name="boxes"
        label={words.boxes}
        hint={words.boxesHint(boxesMin, boxesMax)}
        error={errorOf("boxes")}
        defaultValue={set && String(set.boxes.length)}
        options={Array.from({ length: boxesMax - boxesMin + 1 }, (_, i) => ({
          value: String(boxesMin + i),
          label: String(boxesMin + i),
        }))}
      />
      <Grains grains={grains} atHand={set?.grainsAtHand ?? []} error={errorOf("grainsAtHand")} />
      <BoxFields limits={limits} plan={set} errorOf={errorOf} inputs={INPUTS} />
      <ProblemNotice problem={problem} inputs={INPUTS} />
      <Button disabled={busy}>{busy ? growingMessages.sending : set ? words.saveChange : words.save}</Button>
    </form>
  );
}

/** What the server would say of it; its schema is fetched only here, so that the page stays light. */
async function planFaults(plan: object) {
  const { outingSchema } = await import("@/shared/schemas/outing");
  const issues = outingSchema.safeParse({ id: v7(), ...plan }).error?.issues ?? [];
  return issues.map(({ path, message }) => ({
    path: path.join("."),
    code: message,
    words: fieldWords(message),
  }));
}

/** What was typed, in the shape that is sent, for its schema to judge; as many ids as boxes are made. */
function typedPlan(form: FormData, boxIds: string[]) {
  const count = Number(form.get("boxes"));
  while (boxIds.length < count) boxIds.push(v7());
  const text = (name: string) => String(form.get(name) ?? "");
  const clear = text("coverClear");
  return {
    siteId: text("site"),
    day: text("day"),
    boxKind: text("boxKind"),
    innerLengthCm: typedNumber(text("innerLength")),
    innerWidthCm: typedNumber(text("innerWidth")),
    innerHeightCm: text("innerHeight").trim() === "" ? null : typedNumber(text("innerHeight")),
    grainDepthCm: typedNumber(text("grainDepth")),
    cover: text("cover"),
    coverClear: clear === "yes" ? true : clear === "no" ? false : null,
    guard: text("guard"),
    boxes: boxIds.slice(0, count).map((id) => ({ id })),
    grainsAtHand: form.getAll("grain"),
    permission: form.get("permission") ?? undefined,
  };
}

function ImpossiblePlaces({ sites }: Pick<Props, "sites">) {
  const impossible = sites.filter(({ fault }) => fault !== null);
  if (impossible.length === 0) return null;
  return (
    <ul className="mb-5 text-quiet">
      {impossible.map(({ id, name, fault }) => (
        <li key={id}>
          {fault === "SITE_OUTSIDE_REGION" ? words.placeOutside(name) : words.placeNoGroup(name)}
        </li>
      ))}
    </ul>
  );
}

function Grains({
  grains,
  atHand,
  error,
}: {
  grains: readonly GrainId[];
  atHand: readonly GrainId[];
  error: string | undefined;
}) {
  return (
    <fieldset className="mb-5" id={INPUTS.grainsAtHand}>
      <legend className="mb-1 font-semibold">{words.grains}</legend>
      <p className="mb-1 text-[0.9375rem] text-quiet">{words.grainsHint}</p>
      {error ? <p className="mb-1 font-semibold text-due">{error}</p> : null}
      {grains.map((grain) => (
        <CheckField
          key={grain}
          name="grain"
          value={grain}
          label={vocabularyMessages.grain[grain]}
          defaultChecked={atHand.includes(grain)}
        />
      ))}
    </fieldset>
  );
}
