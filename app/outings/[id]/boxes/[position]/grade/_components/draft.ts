import { v7 } from "uuid";
import type { GradeMeasures } from "@/shared/schemas/grade";
import { type Measure, OFF_COLOURS, type OffColour, type Unmeasured } from "@/shared/vocabulary/growth";

/** One thing at a time, in the order it shows itself: warmth before the box is opened, weights once it is sorted. */
export const STEPS = [
  "before",
  "warmth",
  "open",
  "cover",
  "colours",
  "depth",
  "wetness",
  "weights",
  "finish",
] as const;
export type Step = (typeof STEPS)[number];

/** A number as typed and, where there is none, why; both empty where nobody answered. */
export interface TypedMeasure {
  readonly text: string;
  readonly why: Unmeasured | "";
}

/** What a person has answered so far, as the fields hold it. Choices are a word of their list, a reason, or empty. */
export interface GradeDraft {
  /** The write's id; it stays over reloads until the record is sent. */
  readonly id: string;
  /** The revision this corrects; null for a first record. */
  readonly basedOn: number | null;
  /** When it was first sent, so that sending again sends the same. */
  readonly recordedAt: string | null;
  readonly step: Step;
  readonly openedAt: string;
  readonly warmth: string;
  readonly coverClass: string;
  readonly coverPercent: string;
  /** Whether there is any colour but white and grey. */
  readonly otherColour: "" | "none" | "some" | Unmeasured;
  /** The colours seen; those not among them are not there. */
  readonly seen: readonly OffColour[];
  readonly colours: Readonly<Record<OffColour, TypedMeasure>>;
  readonly depth: string;
  readonly wetness: string;
  readonly usable: TypedMeasure;
  readonly total: TypedMeasure;
  readonly note: string;
}

const NO_ANSWER: TypedMeasure = { text: "", why: "" };

/** The revision that stands. */
export interface Standing {
  readonly revision: number;
  readonly measures: GradeMeasures;
}

/** A draft with nothing answered; or, where a record stands, with its answers to be corrected, the overview first. */
export function newDraft(standing: Standing | null): GradeDraft {
  const measures = standing?.measures ?? null;
  return {
    id: v7(),
    basedOn: standing?.revision ?? null,
    recordedAt: null,
    step: standing ? "finish" : "before",
    openedAt: "",
    warmth: choiceOf(measures?.warmth ?? null),
    coverClass: choiceOf(measures?.coverClass ?? null) || whyOf(measures?.coverPercent ?? null),
    coverPercent: typedOf(measures?.coverPercent ?? null).text,
    ...coloursOf(measures?.offColourPercent ?? null),
    depth: choiceOf(measures?.depth ?? null),
    wetness: choiceOf(measures?.wetness ?? null),
    usable: typedOf(measures?.usableMassG ?? null),
    total: typedOf(measures?.totalMassG ?? null),
    note: "",
  };
}

function coloursOf(
  byColour: GradeMeasures["offColourPercent"] | null,
): Pick<GradeDraft, "otherColour" | "seen" | "colours"> {
  const measures = OFF_COLOURS.map((colour) => byColour?.[colour] ?? null);
  const colours = Object.fromEntries(
    OFF_COLOURS.map((colour, i) => [colour, typedOf(measures[i]!)]),
  ) as GradeDraft["colours"];
  const isZero = (measure: Measure<number>) => typeof measure === "object" && measure?.value === 0;
  const seen = OFF_COLOURS.filter((_, i) => !isZero(measures[i]!));
  const [first] = measures;
  const isSame = measures.every((measure) => measure === first);
  if (isSame && (first === null || typeof first === "string")) {
    return { otherColour: first ?? "", seen: [], colours };
  }
  return { otherColour: seen.length === 0 ? "none" : "some", seen, colours };
}

function typedOf(measure: Measure<number>): TypedMeasure {
  if (measure === null) return NO_ANSWER;
  return typeof measure === "string" ? { text: "", why: measure } : { text: String(measure.value), why: "" };
}

function choiceOf(measure: Measure<string | number>): string {
  if (measure === null) return "";
  return typeof measure === "string" ? measure : String(measure.value);
}

function whyOf(measure: Measure<number>): string {
  return typeof measure === "string" ? measure : "";
}
