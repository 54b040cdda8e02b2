/** At most so many values by name; one more drops the one not asked for longest. */
export class LastUsed<Value> {
  readonly #values = new Map<string, Value>();

  /** @param most how many are kept, 1 or more */
  constructor(private readonly most: number) {}

  get(name: string): Value | undefined {
    const value = this.#values.get(name);
    if (value !== undefined) this.set(name, value);
    return value;
  }

  set(name: string, value: Value): void {
    this.#values.delete(name);
    this.#values.set(name, value);
    for (const oldest of this.#values.keys()) {
      if (this.#values.size <= this.most) return;
      this.#values.delete(oldest);
    }
  }

  /** All that is kept now, longest unused first. */
  entries(): ReadonlyMap<string, Value> {
    return new Map(this.#values);
  }
}
