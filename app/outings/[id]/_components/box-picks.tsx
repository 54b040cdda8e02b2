import { CheckField } from "@/lib/ui/components/check-field";
import { stepMessages as words } from "@/lib/ui/messages/en/set-steps";

export interface NamedBox {
  readonly id: string;
  readonly position: number;
  readonly code: string;
}

interface Props {
  readonly boxes: readonly NamedBox[];
  /** Ids of those left out; all others are meant. */
  readonly without: readonly string[];
  readonly onChange: (without: readonly string[]) => void;
}

/** Which boxes are meant: all, until one is unticked. */
export function BoxPicks({ boxes, without, onChange }: Props) {
  return (
    <fieldset className="mb-3">
      <legend className="font-semibold">{words.theseBoxes}</legend>
      <div className="grid grid-cols-2 sm:grid-cols-3">
        {boxes.map(({ id, code }) => (
          <CheckField
            key={id}
            name="box"
            label={<span className="font-mono font-bold">{code}</span>}
            checked={!without.includes(id)}
            onChange={(event) =>
              onChange(event.target.checked ? without.filter((other) => other !== id) : [...without, id])
            }
          />
        ))}
      </div>
    </fieldset>
  );
}
