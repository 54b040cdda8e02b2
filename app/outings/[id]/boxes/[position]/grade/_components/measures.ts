import { typedNumber } from "@/lib/ui/form-numbers";
import type { GradeMeasures } from "@/shared/schemas/grade";
import { type Measure, OFF_COLOURS, type OffColour, UNMEASURED } from "@/shared/vocabulary/growth";
import type { GradeDraft, TypedMeasure } from "./draft";

/** The answers as they are sent. A typed per cent stands beside the picture; smell is not asked for. */
export function measuresOf(draft: GradeDraft): GradeMeasures {
  const why = UNMEASURED.find((reason) => reason === draft.coverClass) ?? "";
  const measures = {
    coverPercent: measured({ text: draft.coverPercent, why }),
    coverClass:
      why !== "" || draft.coverClass === "" ? chosen(draft.coverClass) : { value: Number(draft.coverClass) },
    offColourPercent: Object.fromEntries(OFF_COLOURS.map((colour) => [colour, colourOf(draft, colour)])),
    depth: chosen(draft.depth),
    wetness: chosen(draft.wetness),
    warmth: chosen(draft.warmth),
    smell: null,
    usableMassG: measured(draft.usable),
    totalMassG: measured(draft.total),
  };
  return measures as GradeMeasures; // the fields offer only what the lists hold, and the server checks
}

function colourOf({ otherColour, seen, colours }: GradeDraft, colour: OffColour): Measure<number> {
  if (otherColour === "none") return { value: 0 };
  if (otherColour !== "some") return otherColour === "" ? null : otherColour;
  if (seen.includes(colour)) return measured(colours[colour]);
  return seen.length === 0 ? null : { value: 0 };
}

/** Text that is no number goes out as a value of null, which the server refuses. */
function measured({ text, why }: TypedMeasure): Measure<number> {
  if (text.trim() !== "") return { value: typedNumber(text) };
  return why === "" ? null : why;
}

function chosen(choice: string): Measure<string> {
  if (choice === "") return null;
  return UNMEASURED.find((why) => why === choice) ?? { value: choice };
}
