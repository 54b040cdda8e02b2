import { v7 } from "uuid";
import { typedNumber } from "@/lib/ui/form-numbers";
import type { GradeMeasures } from "@/shared/schemas/grade";
import {
  type Measure,
  OFF_COLOURS,
  type OffColour,
  UNMEASURED,
  type Unmeasured,
} from "@/shared/vocabulary/growth";

/** A number as typed and, where there is none, why; both empty where nobody answered. */
export interface TypedMeasure {
  readonly text: string;
  readonly why: Unmeasured | "";
}

/** What a person has answered so far, as the fields hold it. Choices are a word of their list, a reason, or empty. */
export interface GradeDraft {
  /** The write's id; it stays over reloads until the record is sent. */
  readonly id: string;
  /** When it was first sent, so that sending again sends the same. */
  readonly recordedAt: string | null;
  readonly step: number;
  readonly openedAt: string;
  readonly coverClass: string;
  readonly coverPercent: string;
  readonly colours: Readonly<Record<OffColour, TypedMeasure>>;
  readonly depth: string;
  readonly wetness: string;
  readonly warmth: string;
  readonly usable: TypedMeasure;
  readonly total: TypedMeasure;
  readonly note: string;
}

const NO_ANSWER: TypedMeasure = { text: "", why: "" };

/** A draft with nothing answered, or with what stands where that is to be corrected. */
export function newDraft(standing: GradeMeasures | null): GradeDraft {
  return {
    id: v7(),
    recordedAt: null,
    step: 0,
    openedAt: "",
    coverClass: choiceOf(standing?.coverClass ?? null),
    coverPercent: typedOf(standing?.coverPercent ?? null).text,
    colours: Object.fromEntries(
      OFF_COLOURS.map((colour) => [colour, typedOf(standing?.offColourPercent[colour] ?? null)]),
    ) as GradeDraft["colours"],
    depth: choiceOf(standing?.depth ?? null),
    wetness: choiceOf(standing?.wetness ?? null),
    warmth: choiceOf(standing?.warmth ?? null),
    usable: typedOf(standing?.usableMassG ?? null),
    total: typedOf(standing?.totalMassG ?? null),
    note: "",
  };
}

/** The answers as they are sent. A typed per cent stands beside the picture; smell is not asked for. */
export function measuresOf(draft: GradeDraft) {
  const isWhy = UNMEASURED.some((why) => why === draft.coverClass);
  return {
    coverPercent: measured({ text: draft.coverPercent, why: isWhy ? (draft.coverClass as Unmeasured) : "" }),
    coverClass:
      isWhy || draft.coverClass === "" ? chosen(draft.coverClass) : { value: Number(draft.coverClass) },
    offColourPercent: Object.fromEntries(
      OFF_COLOURS.map((colour) => [colour, measured(draft.colours[colour])]),
    ),
    depth: chosen(draft.depth),
    wetness: chosen(draft.wetness),
    warmth: chosen(draft.warmth),
    smell: null,
    usableMassG: measured(draft.usable),
    totalMassG: measured(draft.total),
  };
}

/** Text that is no number goes out as a value of null, which the server names as a number missing. */
function measured({ text, why }: TypedMeasure): Measure<number> {
  if (text.trim() !== "") return { value: typedNumber(text) };
  return why === "" ? null : why;
}

function chosen(choice: string): Measure<string> {
  if (choice === "") return null;
  return UNMEASURED.find((why) => why === choice) ?? { value: choice };
}

function typedOf(measure: Measure<number>): TypedMeasure {
  if (measure === null) return NO_ANSWER;
  return typeof measure === "string" ? { text: "", why: measure } : { text: String(measure.value), why: "" };
}

function choiceOf(measure: Measure<string | number>): string {
  if (measure === null) return "";
  return typeof measure === "string" ? measure : String(measure.value);
}

/** Per box and standing revision: a draft made before somebody else's correction is not taken for it. */
export function draftKey(boxId: string, revision: number | null): string {
  return `grainlot-grade/${boxId}/${revision ?? 0}`;
}
