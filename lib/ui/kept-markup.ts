import { LastUsed } from "@/lib/last-used";

/** Of up to some 0.6 MB each: the few results that most readers see. */
const MOST = 32;

const kept = globalThis as { grainlotMarkup?: LastUsed<string> };

/**
 * Markup that stands ready, by names that say all it was drawn of. On the server React makes a page in two passes
 * that share no module, so it is kept where both find it. In the browser it holds what pages were left behind.
 */
export function keptMarkup(): LastUsed<string> {
  kept.grainlotMarkup ??= new LastUsed(MOST);
  return kept.grainlotMarkup;
}
