import { v7 } from "uuid";
import { type SyrupEstimate, syrupOf } from "@/lib/engine/jar/water-activity";
import type { JarChoice } from "@/lib/services/growing/jars";
import { typedNumber } from "@/lib/ui/form-numbers";
import { withOffset } from "@/lib/ui/moments";
import { MOST_JAR_G } from "@/shared/vocabulary/jar";

/** What is typed so far, as the fields hold it. */
export interface JarDraft {
  /** The write's id; it stays over reloads until the jar is sent. */
  readonly id: string;
  /** The version this corrects; null for a new jar. */
  readonly basedOn: number | null;
  /** Grams of each box that is ticked. */
  readonly grain: Readonly<Record<string, string>>;
  readonly sugar: string;
  /** As a `datetime-local` input has it; empty: now, or as it stands. */
  readonly madeAt: string;
}

/** What a form starts from: boxes ticked, or a jar as it stands. */
export interface JarStart {
  /** The version of the jar; null for a new one. */
  readonly version: number | null;
  readonly boxes: readonly { readonly boxId: string; readonly grainG: number | null }[];
  readonly sugarG: number | null;
  /** ISO 8601. */
  readonly madeAt: string | null;
}

export function newJarDraft({ version, boxes, sugarG }: JarStart): JarDraft {
  const text = (grams: number | null) => (grams === null ? "" : String(grams));
  return {
    id: v7(),
    basedOn: version,
    grain: Object.fromEntries(boxes.map(({ boxId, grainG }) => [boxId, text(grainG)])),
    sugar: text(sugarG),
    madeAt: "",
  };
}

export const grainId = (boxId: string): string => `grain-${boxId}`;
export const SUGAR_ID = "sugar";
export const BOXES_ID = "boxes";

/** A field at fault, as a problem answer names it; the path is the input's id. */
export interface JarFault {
  readonly path: string;
  readonly code: string;
}

/** What can't be sent yet, in the order of the page; the same bounds as the server's, which keeps whole grams. */
export function jarFaults(draft: JarDraft, choices: readonly JarChoice[]): readonly JarFault[] {
  const faults: JarFault[] = [];
  const look = (path: string, text: string, least: number, most: number, tooMuch = "jar.grams.range") => {
    const grams = typedNumber(text);
    if (!Number.isFinite(grams)) faults.push({ path, code: "jar.grams.number" });
    else if (grams < least || grams > MOST_JAR_G) faults.push({ path, code: "jar.grams.range" });
    else if (Math.round(grams) > most) faults.push({ path, code: tooMuch });
  };
  if (Object.keys(draft.grain).length === 0) faults.push({ path: BOXES_ID, code: "jar.boxes.none" });
  for (const { boxId, leftG } of choices) {
    const text = draft.grain[boxId];
    if (text !== undefined) look(grainId(boxId), text, 1, leftG ?? MOST_JAR_G, "jar.grams.overLeft");
  }
  look(SUGAR_ID, draft.sugar, 0, MOST_JAR_G);
  return faults;
}

/** Grams of each box ticked; what is no number counts nothing. */
function grainsOf(draft: JarDraft): readonly { readonly boxId: string; readonly grainG: number }[] {
  return Object.entries(draft.grain).map(([boxId, text]) => ({ boxId, grainG: typedNumber(text) || 0 }));
}

export function totalGrainG(draft: JarDraft): number {
  return grainsOf(draft).reduce((sum, { grainG }) => sum + grainG, 0);
}

/** The syrup these amounts would make; null while they say nothing, or where a box's moisture isn't known. */
export function syrupOfDraft(draft: JarDraft, choices: readonly JarChoice[]): SyrupEstimate | null {
  const sugarG = typedNumber(draft.sugar);
  if (!(sugarG > 0 && totalGrainG(draft) > 0)) return null;
  const grains = [];
  for (const { boxId, grainG: massG } of grainsOf(draft)) {
    const moisture = choices.find((choice) => choice.boxId === boxId)?.moisture;
    if (moisture === null || moisture === undefined) return null;
    grains.push({ massG, moisture });
  }
  return syrupOf(grains, sugarG);
}

/** The contents as they are sent. */
export function contentsOf(draft: JarDraft, { madeAt }: JarStart) {
  return {
    boxes: grainsOf(draft),
    sugarG: typedNumber(draft.sugar),
    madeAt: withOffset(draft.madeAt) ?? madeAt,
  };
}
