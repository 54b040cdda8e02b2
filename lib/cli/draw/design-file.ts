import { type OfflineDesign, offlineDesignSchema } from "@/shared/schemas/offline-design";
import { readTextFile } from "../text-file";

export type ReadDesign =
  | { readonly ok: true; readonly design: OfflineDesign }
  /** Whole sentences, each with what to do. */
  | { readonly ok: false; readonly faults: readonly string[] };

const BYTES_AT_MOST = 1024 * 1024;
const NAMED_AT_MOST = 20;

export function readDesign(path: string): ReadDesign {
  const file = readTextFile(path, BYTES_AT_MOST);
  if (!file.ok) return { ok: false, faults: [file.message] };
  let value: unknown;
  try {
    value = JSON.parse(file.text);
  } catch (error) {
    return { ok: false, faults: [`This is not JSON: ${(error as Error).message}.`] };
  }
  const parsed = offlineDesignSchema.safeParse(value);
  if (parsed.success) return { ok: true, design: parsed.data };
  const faults = parsed.error.issues.map(({ path, message }) => {
    const place = path.length === 0 ? "" : `${path.join(".")}: `;
    return `${place}${words[message] ?? `${message}.`}`;
  });
  return { ok: false, faults: faults.slice(0, NAMED_AT_MOST) };
}

/** Words for the schema's codes; what has none is in the validator's own. */
const words: Readonly<Record<string, string>> = {
  "code.form":
    "Codes are made of letters, digits, dot, dash and underscore, begin with a letter or digit and have 40 at most.",
  "design.form": 'Write "grainlot-design/1".',
  "design.title": "Give a title of 1 to 120 characters.",
  "design.boxes": "A set has 2 to 12 boxes.",
  "design.groups": "Name at least one climate group.",
  "design.groups.repeated": "A climate group is named twice.",
  "plan.arms.few": "Name at least 2 recipes: one alone compares nothing.",
  "plan.arms.many": "Name at most 24 recipes.",
  "arms.code.repeated": "Two recipes have the same code.",
  "plan.boxesPerSet.order": "The least number of boxes is above the most.",
  "plan.share": "Give a share from 0 to 1.",
  "plan.fetch.day": "A fetch day is a whole number of days from 1 to 60.",
  "plan.fetch.stages": "Stage 2 to 6 fetch days, or choose another rule.",
  "plan.fetch.repeated": "A fetch day is named twice.",
};
