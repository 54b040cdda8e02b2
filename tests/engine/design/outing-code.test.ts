import { expect, test } from "vitest";
import { boxCode, OUTING_CODE_ALPHABET, outingCode } from "@/lib/engine/design/outing-code";
import { seededSource } from "@/lib/engine/random/source";

test("the alphabet has no look-alikes and no vowels (common practice, no source)", () => {
  expect(new Set(OUTING_CODE_ALPHABET).size).toBe(24);
  expect(OUTING_CODE_ALPHABET).not.toMatch(/[AEIOUY01LZSB]/);
});

test("a code is three different characters of the alphabet; the source decides it", () => {
  const random = seededSource("codes");
  const codes = Array.from({ length: 2_000 }, () => outingCode(random));
  for (const code of codes) {
    expect(code).toMatch(/^[2-9CDFGHJKMNPQRTVWX]{3}$/);
    expect(new Set(code).size).toBe(3);
  }
  expect(outingCode(seededSource("codes"))).toBe(codes[0]);
  // 2,000 of 12,144 equally likely codes: 12144·(1 − (1 − 1/12144)^2000) ≈ 1,844 distinct ones are expected.
  expect(new Set(codes).size).toBeGreaterThan(1_780);
});

test("a box's code is its outing's with its position", () => {
  expect(boxCode("K7Q", 2)).toBe("K7Q-2");
  expect(boxCode("K7Q", 12)).toBe("K7Q-12");
  expect(() => boxCode("K7Q", 0)).toThrow(RangeError);
});
