import type { BoxView, OutingView } from "@/lib/services/growing/outing-view";
import { BoxGlyph } from "@/lib/ui/components/box-glyph";
import { ButtonLink } from "@/lib/ui/components/button";
import { placeMomentWords } from "@/lib/ui/format";
import { setMessages } from "@/lib/ui/messages/en/sets";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { TakeBackButton } from "./take-back-button";
import { TellForm } from "./tell-form";

const words = setMessages.box;

interface Props {
  readonly outingId: string;
  readonly box: BoxView;
  readonly amounts: NonNullable<ReturnType<OutingView["amounts"]["get"]>>["perBox"] | undefined;
}

/** One box: its label (all that is printed), what is on record, and what can be told of it. */
export function BoxCard({ outingId, box, amounts }: Props) {
  return (
    <article
      className="mb-4 max-w-[44em] break-inside-avoid rounded-[5px] border-2 border-ink p-3.5"
      id={`box-${box.position}`}
    >
      <div className="flex items-center gap-4">
        <h3 className="font-mono text-[2rem] leading-none font-bold print:text-[4rem]">{box.code}</h3>
        <span className="w-24 print:hidden">
          <BoxGlyph state={box.grade?.take ?? "unrecorded"} />
        </span>
      </div>
      {box.recipe ? (
        <p className="mt-2 font-semibold print:hidden">
          {vocabularyMessages.recipeName(box.recipe.content)}
          {amounts ? (
            <span className="block font-normal text-quiet">
              {setMessages.outing.grainWater(
                setMessages.outing.grams(amounts.dryGrainMassG),
                setMessages.outing.grams(amounts.waterMassG),
              )}
            </span>
          ) : null}
        </p>
      ) : null}
      <div className="mt-3 print:hidden">
        <p className="mb-2">{growthWords(box)}</p>
        <OnRecord box={box} />
        <p className="mb-3">
          <ButtonLink
            kind={box.grade ? "quiet" : "main"}
            href={`/outings/${outingId}/boxes/${box.position}/grade`}
          >
            {box.grade ? words.correct : words.record}
          </ButtonLink>
        </p>
        <TellForm title={words.tellFor(box.code)} boxIds={[box.id]} />
      </div>
    </article>
  );
}

function OnRecord({ box }: { box: BoxView }) {
  if (box.events.length === 0) return <p className="mb-3 text-quiet">{words.nothingOnRecord}</p>;
  return (
    <ul className="mb-3" aria-label={words.onRecord}>
      {box.events.map((event) => (
        <li key={event.id} className="flex flex-wrap items-center gap-x-3 border-b border-line">
          <span>{vocabularyMessages.event[event.kind]}</span>
          <span className="text-quiet">{placeMomentWords(event.occurredAt, event.offsetMinutes)}</span>
          <TakeBackButton boxId={box.id} eventId={event.id} words={vocabularyMessages.event[event.kind]} />
        </li>
      ))}
    </ul>
  );
}

function growthWords({ grade }: BoxView): string | null {
  if (!grade) return null;
  if (grade.take === null) return words.growthUnknown;
  const { name, range } = vocabularyMessages.growth[grade.take];
  const clean = grade.cleanTake === null ? "" : `, ${grade.cleanTake ? words.clean : words.notClean}`;
  return `${words.growth(name, range)}${clean}`;
}
