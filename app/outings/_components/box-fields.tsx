import { ChoiceField } from "@/lib/ui/components/choice-field";
import { NumberField } from "@/lib/ui/components/number-field";
import { SelectField } from "@/lib/ui/components/select-field";
import { growingMessages } from "@/lib/ui/messages/en/growing";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { OutingChange } from "@/shared/schemas/outing";
import type { BoxLimits } from "@/shared/schemas/plan";
import { BOX_KINDS, COVERS, GUARDS } from "@/shared/vocabulary/box";

const words = setMessages.plan;
const unchosen = { value: "", label: growingMessages.chooseFirst };

interface Props {
  readonly limits: BoxLimits | null;
  /** What stands, where a set is planned anew. */
  readonly plan?: Omit<OutingChange, "id">;
  readonly errorOf: (path: string) => string | undefined;
  /** The input of each answer, by its path in what is sent. */
  readonly inputs: Readonly<Record<string, string>>;
}

const MEASURES = [
  { path: "innerLengthCm", name: "innerLength" },
  { path: "innerWidthCm", name: "innerWidth" },
  { path: "innerHeightCm", name: "innerHeight" },
  { path: "grainDepthCm", name: "grainDepth" },
] as const;

/** The kind of box, its inner measures, cover and guard, within what the trial allows. */
export function BoxFields({ limits, plan, errorOf, inputs }: Props) {
  const kinds = limits?.kinds ?? BOX_KINDS;
  const depth = limits?.grainDepthCm;
  const hints: Partial<Record<(typeof MEASURES)[number]["name"], string>> = {
    innerHeight: words.innerHeightHint,
    grainDepth: depth ? words.grainDepthLimits(String(depth.min), String(depth.max)) : words.grainDepthHint,
  };
  return (
    <>
      <h2 className="mt-7 mb-2">{words.boxTitle}</h2>
      {limits?.minSpacingCm ? (
        <p className="mb-4 text-quiet">{words.spacingLimit(limits.minSpacingCm)}</p>
      ) : null}
      <SelectField
        id={inputs.boxKind}
        name="boxKind"
        label={words.boxKind}
        hint={
          limits?.kinds
            ? words.boxKindLimits(limits.kinds.map((kind) => vocabularyMessages.boxKind[kind]).join(", "))
            : words.boxKindHint
        }
        error={errorOf("boxKind")}
        defaultValue={plan?.boxKind}
        options={[unchosen, ...kinds.map((value) => ({ value, label: vocabularyMessages.boxKind[value] }))]}
      />
      {MEASURES.map(({ path, name }) => (
        <NumberField
          key={name}
          id={inputs[path]}
          name={name}
          label={words[name]}
          hint={hints[name]}
          unit={words.cm}
          error={errorOf(path)}
          defaultValue={plan?.[path] ?? undefined}
        />
      ))}
      <SelectField
        id={inputs.cover}
        name="cover"
        label={words.cover}
        error={errorOf("cover")}
        defaultValue={plan?.cover}
        options={[unchosen, ...COVERS.map((value) => ({ value, label: vocabularyMessages.cover[value] }))]}
      />
      <ChoiceField
        name="coverClear"
        legend={words.coverClear}
        hint={words.coverClearHint}
        defaultValue={plan ? clearChoice(plan.coverClear) : undefined}
        options={Object.entries(words.coverClearChoices).map(([value, label]) => ({ value, label }))}
      />
      <SelectField
        id={inputs.guard}
        name="guard"
        label={words.guard}
        error={errorOf("guard")}
        defaultValue={plan?.guard}
        options={[unchosen, ...GUARDS.map((value) => ({ value, label: vocabularyMessages.guard[value] }))]}
      />
    </>
  );
}

const clearChoice = (isClear: boolean | null) => (isClear === null ? "unknown" : isClear ? "yes" : "no");
