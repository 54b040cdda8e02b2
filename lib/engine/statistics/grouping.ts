/** The items by key, keys in code-unit order, so that nothing depends on the order rows arrive in. */
export function groupBy<T>(items: readonly T[], keyOf: (item: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const item of items) {
    const key = keyOf(item);
    const group = groups.get(key);
    if (group) group.push(item);
    else groups.set(key, [item]);
  }
  return new Map([...groups].sort(([a], [b]) => byCodeUnit(a, b)));
}

/** Order by UTF-16 code units: the same on every machine, whatever its locale. */
export function byCodeUnit(a: string, b: string): number {
  return a < b ? -1 : a > b ? 1 : 0;
}
