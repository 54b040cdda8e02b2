import type { OutingView } from "@/lib/services/growing/outing-view";
import { BoxGlyph } from "@/lib/ui/components/box-glyph";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { BoxFold } from "./box-fold";
import { grainsOf } from "./grains-of";

const words = stepMessages.box;

/** The boxes of a drawn set as they stand, and under them what is known of each. */
export function Boxes({ outing }: { outing: OutingView }) {
  const { id, boxes } = outing;
  return (
    <section className="mb-8 max-w-[44em]">
      <h2 className="mb-1">{words.mapTitle}</h2>
      <p className="mb-3 text-quiet">{words.mapLead}</p>
      <ol className="mb-3 grid grid-cols-[repeat(auto-fill,minmax(4.5rem,1fr))] gap-2">
        {boxes.map(({ position, code, grade, step }) => (
          <li key={position}>
            <a href={`#box-${position}`} className="block text-center no-underline!">
              <BoxGlyph state={grade?.take ?? "unrecorded"} />
              <span className="block font-mono font-bold">{code}</span>
              <span className="block text-[0.875rem] leading-tight text-quiet">
                {grade?.take == null
                  ? words.states[grade ? "recorded" : step]
                  : vocabularyMessages.growth[grade.take].name}
              </span>
            </a>
          </li>
        ))}
      </ol>
      {boxes.map((box) => (
        <BoxFold key={box.id} outingId={id} box={box} of={boxes.length} grains={grainsOf(outing)} />
      ))}
    </section>
  );
}
