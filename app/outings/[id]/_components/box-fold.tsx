import type { BoxView } from "@/lib/services/growing/outing-view";
import { ButtonLink } from "@/lib/ui/components/button";
import { stepMessages } from "@/lib/ui/messages/en/set-steps";
import { vocabularyMessages } from "@/lib/ui/messages/en/vocabulary";
import { COOKING_EVENTS, STAGE_EVENTS } from "@/shared/vocabulary/box";
import type { GrainId } from "@/shared/vocabulary/grain";
import { CookPanel } from "./cook-panel";
import { HappenedForm } from "./happened-form";
import { OnRecord } from "./on-record";
import { StageForm } from "./stage-form";

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
        {events.length === 0 ? (
          <p className="text-quiet">{words.nothingOnRecord}</p>
        ) : (
          <OnRecord boxId={id} events={events} />
        )}
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

function growthWords({ take, cleanTake }: NonNullable<BoxView["grade"]>): string {
  if (take === null) return words.growthUnknown;
  const { name, range } = vocabularyMessages.growth[take];
  const clean = cleanTake === null ? "" : `, ${cleanTake ? words.clean : words.notClean}`;
  return `${words.growth(name, range)}${clean}`;
}
