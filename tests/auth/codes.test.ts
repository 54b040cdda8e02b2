import { describe, expect, it } from "vitest";
import { randomCode, randomToken, tokenHash, typedCode } from "@/lib/auth/codes";

describe("codes to copy by hand", () => {
  it("never hold characters read for one another, and come back from however they are typed", () => {
    for (let i = 0; i < 200; i++) {
      const code = randomCode();
      expect(code).toMatch(/^[2-9A-Z]{10}$/);
      expect(code).not.toMatch(/[01OIL58SBU]/);
      expect(typedCode(` ${code.slice(0, 4)}-${code.slice(4).toLowerCase()} `)).toBe(code);
    }
  });

  it("use every character of theirs about equally often", () => {
    const counts = new Map<string, number>();
    for (const character of randomCode(26_000)) counts.set(character, (counts.get(character) ?? 0) + 1);
    expect(counts.size).toBe(26);
    // Binomial(26000, 1/26) has a standard deviation of 31: six of them would be one run in millions.
    for (const count of counts.values()) expect(Math.abs(count - 1000)).toBeLessThan(190);
  });
});

describe("secrets of one-time links", () => {
  it("have 256 bits, never the same, and are kept as SHA-256", () => {
    const [one, two] = [randomToken(), randomToken()];
    expect(Buffer.from(one, "base64url")).toHaveLength(32);
    expect(one).not.toBe(two);
    // FIPS 180-4 example: SHA-256("abc").
    expect(tokenHash("abc")).toBe("ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  });
});
