import { chacha20 } from "@noble/ciphers/chacha.js";
import { describe, expect, test } from "vitest";
import { bytesToHex, hexToBytes } from "@/lib/engine/random/hash";
import { drawSource, keystreamSource, type RandomSource, seededSource } from "@/lib/engine/random/source";
import reference from "../../fixtures/reference/random/draw-1.json";
import { chiSquareOfEqualCells } from "./chi-square";

const BLOCK_WORDS = 16;

/** The source's next 64 bytes: one ChaCha20 block. */
function nextBlockHex(source: RandomSource): string {
  const words = Uint32Array.from({ length: BLOCK_WORDS }, () => source.nextUint32());
  const bytes = new DataView(new ArrayBuffer(64));
  words.forEach((word, i) => {
    bytes.setUint32(i * 4, word, true);
  });
  return bytesToHex(new Uint8Array(bytes.buffer));
}

describe("key stream", () => {
  test("the library's ChaCha20 gives the block of RFC 8439, section 2.3.2", () => {
    const key = Uint8Array.from({ length: 32 }, (_, i) => i);
    const nonce = hexToBytes("000000090000004a00000000");
    expect(bytesToHex(chacha20(key, nonce, new Uint8Array(64), undefined, 1))).toBe(
      "10f1e7e4d13b5915500fdd1fa32071c4c7d1f4c733c068030422aa9ac3d46c4e" +
        "d2826446079faa0914c2d705d98b02a2b5129cd1de164eb9cbd083e8a2503c4e",
    );
  });

  // RFC 8439, appendix A.1, test vectors 1 to 4 (all with a nonce of zeros).
  test.each([
    [
      1,
      "00".repeat(32),
      0,
      "76b8e0ada0f13d90405d6ae55386bd28bdd219b8a08ded1aa836efcc8b770dc7da41597c5157488d7724e03fb8d84a376a43b8f41518a11cc387b669b2ee6586",
    ],
    [
      2,
      "00".repeat(32),
      1,
      "9f07e7be5551387a98ba977c732d080dcb0f29a048e3656912c6533e32ee7aed29b721769ce64e43d57133b074d839d531ed1f28510afb45ace10a1f4b794d6f",
    ],
    [
      3,
      `${"00".repeat(31)}01`,
      1,
      "3aeb5224ecf849929b9d828db1ced4dd832025e8018b8160b82284f3c949aa5a8eca00bbb4a73bdad192b5c42f73f2fd4e273644c8b36125a64addeb006c13a0",
    ],
    [
      4,
      `00ff${"00".repeat(30)}`,
      2,
      "72d54dfbf12ec44b362692df94137f328fea8da73990265ec1bbbea1ae9af0ca13b25aa26cb4a648cb9b9d1be65b2c0924a66c54d545ec1b7374f4872e99f096",
    ],
  ])("RFC 8439, appendix A.1, vector %i comes out of the source", (_vector, keyHex, block, keystreamHex) => {
    const source = keystreamSource(hexToBytes(keyHex));
    for (let skipped = 0; skipped < block * BLOCK_WORDS; skipped++) source.nextUint32();
    expect(nextBlockHex(source)).toBe(keystreamHex);
  });
});

describe("against the independent implementation (fixtures/reference/random/generate.py)", () => {
  const { secretHex, trialId, stream } = reference;

  test("a draw's words, over several refills", () => {
    const source = drawSource({ secretHex, trialId, drawNumber: stream.drawNumber });
    expect(stream.words.map(() => source.nextUint32())).toEqual(stream.words);
  });

  test("below (with rejections), unit and shuffle from a seed", () => {
    const source = seededSource(stream.seed);
    const bounds = [1, 2, 3, 10, 2 ** 31 + 1, 2 ** 31 + 1, 2 ** 31 + 1, 2 ** 32];
    expect(bounds.map((n) => source.below(n))).toEqual(stream.below);
    expect(stream.unit.map(() => source.unit())).toEqual(stream.unit);
    expect(source.shuffle(stream.shuffle.map((_, i) => i))).toEqual(stream.shuffle);
  });
});

describe("draw source", () => {
  const key = { secretHex: "ab".repeat(32), trialId: "t", drawNumber: 1 };

  test("secret, trial and draw number each change the stream", () => {
    const variants = [
      key,
      { ...key, secretHex: "ac".repeat(32) },
      { ...key, trialId: "u" },
      { ...key, drawNumber: 2 },
    ];
    expect(new Set(variants.map((variant) => nextBlockHex(drawSource(variant)))).size).toBe(4);
    expect(nextBlockHex(drawSource(key))).toBe(nextBlockHex(drawSource({ ...key })));
  });

  test.each([
    { ...key, secretHex: "ab".repeat(31) },
    { ...key, secretHex: "AB".repeat(32) },
    { ...key, trialId: "" },
    { ...key, drawNumber: 0 },
    { ...key, drawNumber: 1.5 },
  ])("refuses a malformed key (%#)", (malformed) => {
    expect(() => drawSource(malformed)).toThrow(RangeError);
  });
});

describe("distribution", () => {
  // Upper critical values at 0.001: NIST/SEMATECH e-Handbook of Statistical Methods, section 1.3.6.7.4.
  test("all 24 orders of four things are equally likely: 100,000 shuffles, 23 df, critical value 49.728", () => {
    const source = seededSource("orders of four");
    const counts = new Map<string, number>();
    for (let i = 0; i < 100_000; i++) {
      const order = source.shuffle(["a", "b", "c", "d"]).join("");
      counts.set(order, (counts.get(order) ?? 0) + 1);
    }
    expect(counts.size).toBe(24);
    expect(chiSquareOfEqualCells([...counts.values()])).toBeLessThan(49.728);
  });

  test("below(15) favours no number: 100,000 numbers, 14 df, critical value 36.123", () => {
    const source = seededSource("below fifteen");
    const counts = new Array<number>(15).fill(0);
    for (let i = 0; i < 100_000; i++) counts[source.below(15)]! += 1;
    expect(chiSquareOfEqualCells(counts)).toBeLessThan(36.123);
  });

  test("unit stays in [0, 1) and fills its fifteenths evenly: 14 df, critical value 36.123", () => {
    const source = seededSource("unit");
    const counts = new Array<number>(15).fill(0);
    for (let i = 0; i < 100_000; i++) {
      const value = source.unit();
      expect(value >= 0 && value < 1).toBe(true);
      counts[Math.floor(value * 15)]! += 1;
    }
    expect(chiSquareOfEqualCells(counts)).toBeLessThan(36.123);
  });

  test("shuffle leaves its input alone", () => {
    const items = Object.freeze([1, 2, 3, 4, 5]);
    expect([...seededSource("x").shuffle(items)].sort()).toEqual([1, 2, 3, 4, 5]);
    expect(items).toEqual([1, 2, 3, 4, 5]);
  });

  test.each([0, -1, 1.5, 2 ** 32 + 1, Number.NaN])("below refuses %d", (n) => {
    expect(() => seededSource("x").below(n)).toThrow(RangeError);
  });
});
