/** Whole numbers of 32 bits in a list that grows. */
export class IntList {
  #values = new Int32Array(1024);
  length = 0;

  push(value: number): void {
    if (this.length === this.#values.length) {
      const larger = new Int32Array(2 * this.length);
      larger.set(this.#values);
      this.#values = larger;
    }
    this.#values[this.length++] = value;
  }

  at(place: number): number {
    return this.#values[place]!;
  }

  /** The list so far; a view that later pushes may leave behind. */
  view(): Int32Array {
    return this.#values.subarray(0, this.length);
  }
}
