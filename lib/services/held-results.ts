import { LastUsed } from "@/lib/last-used";
import type { PoolResult } from "@/shared/schemas/pool";

/** A stored result is some 200 kB of JSON, 1 MB as objects. */
const MOST = 12;

/** The two forms of a stored result: for everyone, and all of it for the trial's lead. */
type Form = "published" | "whole";

const held: Readonly<Record<Form, LastUsed<PoolResult>>> = {
  published: new LastUsed(MOST),
  whole: new LastUsed(MOST),
};

/** A stored result under a name no other has, so that what is drawn of it can be kept by that name. */
export interface NamedResult {
  readonly resultName: string;
  readonly result: PoolResult;
}

export interface HeldResults {
  /** Rows whose result a query need not read. */
  readonly ids: readonly string[];
  /** @param read of that row; null where the query left it out */
  readonly named: (id: string, read: PoolResult | null) => NamedResult;
}

/**
 * The results this process has read last. A row of results never changes (the database refuses it), so only which
 * row counts, and who may see it, has to be asked each time. Take it before the query: what it says can be left out
 * stays in it.
 */
export function heldResults(form: Form): HeldResults {
  const before = held[form].entries();
  return {
    ids: [...before.keys()],
    named(id, read) {
      const result = read ? withoutGaps(read) : before.get(id);
      if (!result)
        throw new Error(`The query left out result ${id}, which isn't held: read it with its result.`);
      held[form].set(id, result);
      return { resultName: `${form} ${id}`, result };
    },
  };
}

/** Results stored by older engines lack what came later. */
function withoutGaps(stored: PoolResult): PoolResult {
  return { ...stored, analysis: stored.analysis ?? null, interim: stored.interim ?? null };
}
