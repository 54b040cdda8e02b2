import { type ReactNode, useState } from "react";
import type { JarChoice } from "@/lib/services/growing/jars";
import { CheckField } from "@/lib/ui/components/check-field";
import { FieldNotes } from "@/lib/ui/components/field";
import { NumberField } from "@/lib/ui/components/number-field";
import { dayWords } from "@/lib/ui/format";
import { jarMessages as words } from "@/lib/ui/messages/en/jars";
import { BOXES_ID, grainId, type JarDraft } from "./jar-draft";

interface Props {
  readonly draft: JarDraft;
  readonly choices: readonly JarChoice[];
  readonly change: (part: Partial<JarDraft>) => void;
  readonly errorOf: (inputId: string) => string | undefined;
}

/** The recorded boxes, set by set; one that is ticked asks for its grams. */
export function BoxesField({ draft, choices, change, errorOf }: Props) {
  const setIds = [...new Set(choices.map(({ outingId }) => outingId))];
  const sets = setIds.map((id) => choices.filter(({ outingId }) => outingId === id));
  function tick(boxId: string) {
    const { [boxId]: had, ...others } = draft.grain;
    change({ grain: had === undefined ? { ...others, [boxId]: "" } : others });
  }
  return (
    <fieldset id={BOXES_ID} tabIndex={-1} className="mb-5 max-w-[44em]">
      <legend className="mb-1 font-semibold">{words.boxes}</legend>
      <FieldNotes id={BOXES_ID} error={errorOf(BOXES_ID)} />
      {sets.map((boxes, place) => (
        <BoxSet
          key={boxes[0]!.outingId}
          title={words.set(boxes[0]!.setCode, dayWords(boxes[0]!.day))}
          isFirstShown={place === 0 && Object.keys(draft.grain).length === 0}
          isTicked={boxes.some(({ boxId }) => draft.grain[boxId] !== undefined)}
        >
          {boxes.map((box) => (
            <BoxGrain
              key={box.boxId}
              box={box}
              grain={draft.grain[box.boxId]}
              onTick={() => tick(box.boxId)}
              onType={(text) => change({ grain: { ...draft.grain, [box.boxId]: text } })}
              error={errorOf(grainId(box.boxId))}
            />
          ))}
        </BoxSet>
      ))}
    </fieldset>
  );
}

interface BoxSetProps {
  readonly title: string;
  readonly isFirstShown: boolean;
  readonly isTicked: boolean;
  readonly children: ReactNode;
}

/** Older sets are folded, so that many seasons stay one screen; what is ticked always shows. */
function BoxSet({ title, isFirstShown, isTicked, children }: BoxSetProps) {
  const [isOpen, setOpen] = useState(isFirstShown);
  if (isTicked && !isOpen) setOpen(true);
  return (
    <details open={isOpen} className="border-b border-line">
      <summary className="min-h-11 cursor-pointer py-2 font-bold text-quiet">{title}</summary>
      {children}
    </details>
  );
}

interface BoxGrainProps {
  readonly box: JarChoice;
  /** As typed; undefined while the box isn't ticked. */
  readonly grain: string | undefined;
  readonly onTick: () => void;
  readonly onType: (text: string) => void;
  readonly error: string | undefined;
}

function BoxGrain({ box, grain, onTick, onType, error }: BoxGrainProps) {
  return (
    <>
      <CheckField
        name={`box-${box.boxId}`}
        label={<span className="font-mono font-bold">{box.code}</span>}
        checked={grain !== undefined}
        onChange={onTick}
      />
      {grain === undefined ? null : (
        <div className="pl-9">
          <NumberField
            id={grainId(box.boxId)}
            name={grainId(box.boxId)}
            label={words.grain(box.code)}
            hint={box.leftG === null ? words.notWeighed : words.leftOver(box.leftG)}
            error={error}
            unit={words.grams}
            value={grain}
            onChange={(event) => onType(event.target.value)}
          />
        </div>
      )}
    </>
  );
}
