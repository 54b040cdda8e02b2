import type { designMessages } from "@/lib/ui/messages/en/design";

export const HEIGHT_PX = 300;
/** The same for what holds its place; as a class, since the page allows no styles in attributes. */
export const HEIGHT_CLASS = "min-h-[300px]";

export interface CurveLine {
  readonly line: keyof typeof designMessages.curve.lines;
  readonly points: readonly { readonly growers: number; readonly chance: number }[];
}

/** Lines are told apart by their dashes first, so that grey print and any eye can. */
export const LINE_LOOKS: Readonly<
  Record<
    CurveLine["line"],
    { readonly stroke: string; readonly strokeWidth: number; readonly strokeDasharray?: string }
  >
> = {
  difference: { stroke: "var(--act)", strokeWidth: 4 },
  anyDifference: { stroke: "var(--ink)", strokeWidth: 2.5, strokeDasharray: "9 5" },
  equivalence: { stroke: "var(--ink)", strokeWidth: 3, strokeDasharray: "2 5" },
  cleanTake: { stroke: "var(--due)", strokeWidth: 2.5, strokeDasharray: "12 4 2 4" },
};
