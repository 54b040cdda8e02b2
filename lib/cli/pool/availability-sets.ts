import { ByteLabels } from "./byte-labels";
import { IntList } from "./int-list";

/** The sets of arms that growers could have cooked. "b a" and "a b" are one set; "" means that it wasn't stated. */
export class AvailabilitySets {
  /** Each set's arms in code-unit order, a space between. */
  readonly labels: string[] = [];
  readonly #numbers = new Map<string, number>();
  readonly #written = new ByteLabels();
  readonly #setOfWritten = new IntList();

  /** The number of the set written between `start` and `end`, arms separated by blanks. */
  numberOf(bytes: Uint8Array, start: number, end: number): number {
    const written = this.#written.numberOf(bytes, start, end);
    if (written === this.#setOfWritten.length)
      this.#setOfWritten.push(this.#setOf(this.#written.text(written)));
    return this.#setOfWritten.at(written);
  }

  #setOf(text: string): number {
    const arms = new Set(text.split(/\s+/).filter((arm) => arm !== ""));
    const label = [...arms].sort().join(" ");
    let number = this.#numbers.get(label);
    if (number === undefined) {
      number = this.labels.push(label) - 1;
      this.#numbers.set(label, number);
    }
    return number;
  }
}
