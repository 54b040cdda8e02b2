import type { NamedBox } from "@/app/outings/[id]/_components/box-picks";
import { HappenedForm } from "@/app/outings/[id]/_components/happened-form";
import { OnRecord } from "@/app/outings/[id]/_components/on-record";
import type { HelperView } from "@/lib/services/growing/helper-view";
import { BoxGlyph } from "@/lib/ui/components/box-glyph";
import { ButtonLink } from "@/lib/ui/components/button";
import { helperMessages } from "@/lib/ui/messages/en/helpers";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";

/** The boxes in their order, each with how far it is, what helpers said of it and what may be told of it. */
export function HelperBoxes({ set: { outingId, boxes } }: { set: HelperView }) {
  return (
    <section className="mb-8 max-w-[44em]">
      <h2 className="mb-1">{helperMessages.page.boxes}</h2>
      <p className="mb-3 text-quiet">{helperMessages.page.boxesLead}</p>
      <ol>
        {boxes.map((box) => (
          <li key={box.position} className="border-b border-line py-2">
            <div className="flex items-center gap-4">
              <span className="w-20 shrink-0">
                <BoxGlyph
                  state={box.growth === null || box.growth === "recorded" ? "unrecorded" : box.growth}
                />
              </span>
              <p>
                <span className="block font-mono text-[1.25rem] font-bold">{box.code}</span>
                <span className="text-quiet">{standingWords(box)}</span>
              </p>
            </div>
            {box.isRecordedByHelper ? (
              <p className="my-2">
                <ButtonLink kind="quiet" href={`/h/boxes/${box.position}/grade`}>
                  {stepMessages.box.correct}
                </ButtonLink>
              </p>
            ) : null}
            {box.told.length > 0 ? (
              <div className="mt-2">
                <OnRecord boxId={box.id} events={box.told} />
              </div>
            ) : null}
            <HappenedForm outingId={outingId} box={named(box)} of={boxes.length} />
          </li>
        ))}
      </ol>
    </section>
  );
}

function standingWords({ growth, step }: HelperView["boxes"][number]): string {
  if (growth === null) return stepMessages.box.states[step];
  return growth === "recorded" ? stepMessages.box.states.recorded : vocabularyMessages.growth[growth].name;
}

const named = ({ id, position, code }: NamedBox): NamedBox => ({ id, position, code });
