/** Which of a number of things are linked by chains of pairs (disjoint sets with path halving). */
export class LinkedGroups {
  readonly #parent: Int32Array;

  constructor(size: number) {
    this.#parent = Int32Array.from({ length: size }, (_, i) => i);
  }

  /** The same number for all things linked with `item`: the lowest of them. */
  groupOf(item: number): number {
    const parent = this.#parent;
    let at = item;
    while (parent[at] !== at) {
      parent[at] = parent[parent[at]!]!;
      at = parent[at]!;
    }
    return at;
  }

  link(first: number, second: number): void {
    const a = this.groupOf(first);
    const b = this.groupOf(second);
    this.#parent[Math.max(a, b)] = Math.min(a, b);
  }
}
