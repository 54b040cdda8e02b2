import { CheckField } from "@/lib/ui/components/check-field";
import { ChoiceField } from "@/lib/ui/components/choice-field";
import { NumberField } from "@/lib/ui/components/number-field";
import { SelectField } from "@/lib/ui/components/select-field";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { COOKING_DIFFERENCES, COOKING_EVENTS, type CookingDifference } from "@/shared/vocabulary/box";
import { GRAINS, type GrainId } from "@/shared/vocabulary/grain";
import type { NamedBox } from "./box-picks";

const words = stepMessages.cook;

/** How one box was cooked, as typed. */
export interface CookedBox {
  readonly kind: (typeof COOKING_EVENTS)[number] | "later";
  readonly differs: readonly CookingDifference[];
  readonly grain: GrainId | "";
  readonly minutes: string;
  readonly reason: keyof typeof words.whyNotChoices;
}

interface Props {
  readonly box: NamedBox;
  /** Those of the trial, to be found first. */
  readonly grains: readonly GrainId[];
  readonly value: CookedBox;
  readonly errorOf: (name: "differs" | "cookMinutes") => string | undefined;
  readonly onChange: (part: Partial<CookedBox>) => void;
}

/** One box: as picked, otherwise and what, or not at all and why. */
export function CookedBoxFields(props: Props) {
  const { box, value, onChange } = props;
  return (
    <div className="mb-4 border-t border-line pt-3">
      <ChoiceField
        name={`cooked-${box.position}`}
        legend={<span className="font-mono text-[1.25rem]">{box.code}</span>}
        value={value.kind}
        onChange={(event) => onChange({ kind: event.target.value as CookedBox["kind"] })}
        options={[...COOKING_EVENTS, "later" as const].map((kind) => ({
          value: kind,
          label: words.choices[kind],
        }))}
      />
      {value.kind === "cooked-otherwise" ? <Otherwise {...props} /> : null}
      {value.kind === "not-cooked" ? (
        <SelectField
          name={`why-${box.position}`}
          label={words.whyNot}
          value={value.reason}
          onChange={(event) => onChange({ reason: event.target.value as CookedBox["reason"] })}
          options={Object.entries(words.whyNotChoices).map(([value, label]) => ({ value, label }))}
        />
      ) : null}
    </div>
  );
}

function Otherwise({ box, value, onChange, grains, errorOf }: Props) {
  const missing = errorOf("differs");
  const others = GRAINS.filter((grain) => !grains.includes(grain));
  return (
    <>
      <fieldset className="mb-3">
        <legend className="font-semibold">{words.differsTitle}</legend>
        {missing ? <p className="font-semibold text-due">{missing}</p> : null}
        <div className="grid grid-cols-2">
          {COOKING_DIFFERENCES.map((difference) => (
            <CheckField
              key={difference}
              name={`differs-${box.position}`}
              label={words.differs[difference]}
              checked={value.differs.includes(difference)}
              onChange={(event) =>
                onChange({
                  differs: event.target.checked
                    ? [...value.differs, difference]
                    : value.differs.filter((other) => other !== difference),
                })
              }
            />
          ))}
        </div>
      </fieldset>
      {value.differs.includes("other-grain") ? (
        <SelectField
          name={`grain-${box.position}`}
          label={words.grain}
          value={value.grain}
          onChange={(event) => onChange({ grain: event.target.value as GrainId | "" })}
          options={[
            { value: "", label: words.grainUnknown },
            ...[...grains, ...others].map((grain) => ({
              value: grain,
              label: vocabularyMessages.grain[grain],
            })),
          ]}
        />
      ) : null}
      {value.differs.includes("longer") || value.differs.includes("shorter") ? (
        <NumberField
          name={`minutes-${box.position}`}
          label={words.minutes}
          unit={words.minutesUnit}
          error={errorOf("cookMinutes")}
          inputMode="numeric"
          value={value.minutes}
          onChange={(event) => onChange({ minutes: event.target.value })}
        />
      ) : null}
    </>
  );
}
