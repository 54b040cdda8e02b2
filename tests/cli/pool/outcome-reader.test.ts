import { describe, expect, it } from "vitest";
import { OutcomeReader } from "@/lib/cli/pool/outcome-reader";
import { seededSource } from "@/lib/engine/random/source";

function read(text: string, reader = new OutcomeReader(false)): number {
  const bytes = Buffer.from(`,${text},`);
  return reader.read(bytes, 1, bytes.length - 1);
}

describe("an outcome", () => {
  it("is the number ECMAScript reads from the same digits, to the last bit", () => {
    const source = seededSource("decimals");
    const digits = (n: number): string => Array.from({ length: n }, () => source.below(10)).join("");
    for (let round = 0; round < 20_000; round++) {
      const sign = ["", "-", "+"][source.below(3)]!;
      const exponent = source.below(4) === 0 ? `e${source.below(2) ? "-" : ""}${source.below(30)}` : "";
      const text = `${sign}${digits(1 + source.below(12))}${source.below(2) ? `.${digits(source.below(12))}` : ""}${exponent}`;
      expect(read(text), text).toBe(Number(text));
    }
  });

  it.each([
    "",
    "-",
    ".",
    "1.2.3",
    "1 2",
    "0x1",
    "1e",
    "1e999",
    "NaN",
    "Infinity",
    "１",
    "1,5",
    "1_000",
    "--1",
    "1-",
  ])("is not %j", (text) => {
    expect(read(text)).toBeNaN();
  });

  it("may have one decimal comma where those are allowed, and no point then", () => {
    const reader = new OutcomeReader(true);
    expect(read("2,5", reader)).toBe(2.5);
    expect(read("-1,25e2", reader)).toBe(-125);
    expect(read("7", reader)).toBe(7);
    expect(read("1,2,3", reader)).toBeNaN();
    expect(reader.otherMark).toBe(false);
    expect(read("2.5", reader)).toBeNaN();
    expect(reader.otherMark).toBe(true);
    expect(reader.decimalCommas).toBe(2);
  });
});
