import type { BoxView } from "@/lib/services/growing/outing-view";
import { ButtonLink } from "@/lib/ui/components/button";
import { placeMomentWords } from "@/lib/ui/format";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import type { KeptEventDetail } from "@/shared/schemas/box-event";
import { COOKING_EVENTS, STAGE_EVENTS } from "@/shared/vocabulary/box";
import type { GrainId } from "@/shared/vocabulary/grain";
import { CookPanel } from "./cook-panel";
import { HappenedForm } from "./happened-form";
import { StageForm } from "./stage-form";
import { TakeBackButton } from "./take-back-button";

const words = stepMessages.box;

interface Props {
  readonly outingId: string;
  readonly box: BoxView;
  /** Boxes in the set. */
  readonly of: number;
  /** Of the recipes in the set. */
  readonly grains: readonly GrainId[];
}

/** One box: what is on record of it, and all that can be told of it alone. */
export function BoxFold({ outingId, box, of, grains }: Props) {
  const { id, position, code, events, grade, recipe, step } = box;
  const named = { id, position, code };
  const isKnownRecipe = step !== "fetch" && step !== "record";
  const missing = STAGE_EVENTS.filter((stage) => !events.some(({ kind }) => kind === stage));
  const isCooked = events.some(({ kind }) => (COOKING_EVENTS as readonly string[]).includes(kind));
  return (
    <details className="border-b border-line">
      <summary className="min-h-[52px] cursor-pointer py-3">
        <span className="mr-3 ml-1 font-mono text-[1.25rem] font-bold">{code}</span>
        <span className="text-quiet">{words.states[grade ? "recorded" : step]}</span>
      </summary>
      <div className="scroll-mt-16 pb-4" id={`box-${position}`}>
        {recipe ? (
          <p className="mb-2">
            {isKnownRecipe ? vocabularyMessages.recipeName(recipe.content) : words.recipeHidden}
          </p>
        ) : null}
        {grade ? <p className="mb-2 font-semibold">{growthWords(grade)}</p> : null}
        <OnRecord box={box} />
        {step === "none" && !grade ? null : (
          <p className="my-3">
            <ButtonLink
              kind={step === "record" ? "main" : "quiet"}
              href={`/outings/${outingId}/boxes/${position}/grade`}
            >
              {grade ? words.correct : words.recordOf(code)}
            </ButtonLink>
          </p>
        )}
        <HappenedForm outingId={outingId} box={named} of={of} />
        {isCooked ? null : (
          <details className="mb-2">
            <summary className="min-h-[44px] cursor-pointer py-2.5 font-semibold">{words.cooked}</summary>
            <CookPanel outingId={outingId} boxes={[named]} grains={grains} step={`cook-${position}`} />
          </details>
        )}
        <StageForm outingId={outingId} box={named} missing={missing} />
      </div>
    </details>
  );
}

function OnRecord({ box }: { box: BoxView }) {
  if (box.events.length === 0) return <p className="text-quiet">{words.nothingOnRecord}</p>;
  const inTime = [...box.events].sort((a, b) => a.occurredAt.getTime() - b.occurredAt.getTime());
  return (
    <ul aria-label={words.onRecord}>
      {inTime.map(({ id, kind, detail, occurredAt, offsetMinutes }) => {
        const name = vocabularyMessages.event[kind];
        const more = detail && detailWords(detail);
        return (
          <li key={id} className="flex flex-wrap items-center gap-x-3 border-t border-line">
            <span>{more ? `${name}: ${more}` : name}</span>
            <span className="text-quiet">{placeMomentWords(occurredAt, offsetMinutes)}</span>
            {detail?.becauseOf ? null : <TakeBackButton boxId={box.id} eventId={id} words={name} />}
          </li>
        );
      })}
    </ul>
  );
}

function detailWords(detail: KeptEventDetail): string {
  switch (detail.kind) {
    case "cooked-otherwise": {
      const { differs, grain, cookMinutes } = detail;
      return [
        words.differs(differs),
        ...(grain ? [vocabularyMessages.grain[grain]] : []),
        ...(cookMinutes === null ? [] : [words.cookMinutes(cookMinutes)]),
      ].join(", ");
    }
    case "not-cooked":
      return words.notCooked(detail.reason);
    case "label-gone":
      return words.known(detail.known);
    case "growth-not-recordable":
      return words.notRecordable(detail.reason);
  }
}

function growthWords({ take, cleanTake }: NonNullable<BoxView["grade"]>): string {
  if (take === null) return words.growthUnknown;
  const { name, range } = vocabularyMessages.growth[take];
  const clean = cleanTake === null ? "" : `, ${cleanTake ? words.clean : words.notClean}`;
  return `${words.growth(name, range)}${clean}`;
}
