/** Climate groups that are told apart no more, as each or all but one had too few growers. */
export interface JoinedGroups {
  /** The codes of its groups in their order, `+` between: no group of a trial has such a code. */
  readonly code: string;
  readonly of: readonly string[];
}

/**
 * Which climate groups have to be joined so that none holds fewer than `minimum` growers: all that do are joined, and
 * with them, where they still are too few, the smallest of the others. Null where nothing has to be; false where
 * even the whole trial has too few.
 * @param growersOf the growers with boxes in each group, in the order of the trial's grouping
 */
export function joinedGroups(
  growersOf: ReadonlyMap<string, ReadonlySet<string>>,
  minimum: number,
): JoinedGroups | null | false {
  const bySize = [...growersOf].sort(([, a], [, b]) => a.size - b.size);
  const joined = new Set<string>();
  const growers = new Set<string>();
  for (const [code, own] of bySize) {
    if (own.size >= minimum && (joined.size === 0 || growers.size >= minimum)) break;
    joined.add(code);
    for (const grower of own) growers.add(grower);
  }
  if (growersOf.size === 0 || (joined.size > 0 && growers.size < minimum)) return false;
  if (joined.size === 0) return null;
  const of = [...growersOf.keys()].filter((code) => joined.has(code));
  return { code: of.join("+"), of };
}
