import { typedNumber } from "@/lib/ui/form-numbers";
import { OFF_COLOURS, type OffColour } from "@/shared/vocabulary/growth";
import type { GradeDraft, Step } from "./draft";

/** Heaviest content of one box that the server takes (shared/schemas/grade.ts). */
const MOST_GRAMS = 50_000;

export type NumberField = "cover" | OffColour | "usable" | "total";

/** A number that can't be used: its field, the step it stands in, and the code of what is wrong. */
export interface Fault {
  readonly field: NumberField;
  readonly step: Step;
  readonly code: string;
}

/** The input of a number. */
export const inputId = (field: NumberField): string => `number-${field}`;

/**
 * The numbers that were typed and can't be used; what was left open is no fault. The same bounds and codes as the
 * server's, without its parser, which would weigh on a phone.
 */
export function faultsOf(draft: GradeDraft): readonly Fault[] {
  const faults: Fault[] = [];
  const look = (field: NumberField, step: Step, unit: "percent" | "grams", text: string) => {
    const code = numberFault(text, unit);
    if (code) faults.push({ field, step, code });
  };
  look("cover", "cover", "percent", draft.coverPercent);
  if (draft.otherColour === "some") {
    for (const colour of OFF_COLOURS) {
      if (draft.seen.includes(colour)) look(colour, "colours", "percent", draft.colours[colour].text);
    }
  }
  look("usable", "weights", "grams", draft.usable.text);
  look("total", "weights", "grams", draft.total.text);
  if (typedNumber(draft.usable.text) > typedNumber(draft.total.text)) {
    faults.push({ field: "usable", step: "weights", code: "grade.usableMass.overTotal" });
  }
  return faults;
}

function numberFault(text: string, unit: "percent" | "grams"): string | null {
  if (text.trim() === "") return null;
  const value = typedNumber(text);
  if (!Number.isFinite(value)) return `grade.${unit}.number`;
  const most = unit === "percent" ? 100 : MOST_GRAMS;
  return value < 0 || value > most ? `grade.${unit}.range` : null;
}
