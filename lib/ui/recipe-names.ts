import type { VariantContent } from "@/shared/schemas/protocol-variant";
import { vocabularyMessages } from "./messages/en/vocabulary";

/** What recipes are called, by their codes: the code first, since two recipes may differ in a detail only. */
export function recipeNames(
  arms: readonly { readonly code: string; readonly content: VariantContent }[],
): (code: string) => string {
  const names = new Map(
    arms.map(({ code, content }) => [code, `${vocabularyMessages.recipeName(content)} (${code})`]),
  );
  return (code) => names.get(code) ?? code;
}
