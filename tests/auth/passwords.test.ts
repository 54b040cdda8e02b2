import { parseOptions } from "@node-rs/argon2";
import { describe, expect, test } from "vitest";
import { passwordFault } from "@/lib/auth/password-strength";
import { hashPassword, passwordMatches } from "@/lib/auth/passwords";

describe("which passwords may be used", () => {
  // Entries of at least 15 characters from published lists of leaked passwords (from memory) and their kin.
  test.each([
    "passwordpassword",
    "password1234567",
    "1234567890123456",
    "123456789123456789",
    "qwertyuiopasdfgh",
    "1q2w3e4r5t6y7u8i9o0p",
    "aaaaaaaaaaaaaaaaaaaa",
    "abcdefghijklmnopqrstuvwxyz",
    "iloveyouiloveyou",
    "P@ssw0rdP@ssw0rd",
    "sunshinesunshine",
    "grainlotgrainlot",
  ])("the common %s is refused", (password) => {
    expect(passwordFault(password)).toBe("PASSWORD_TOO_COMMON");
  });

  test("one's own name and address don't make a password", () => {
    const own = ["Ainhoa Example", "ainhoa.example@example.org"];
    expect(passwordFault("ainhoa.example@example.org", own)).toBe("PASSWORD_TOO_COMMON");
    expect(passwordFault("Ainhoa Example123", ["Ainhoa Example"])).toBe("PASSWORD_TOO_COMMON");
  });

  // NIST SP 800-63B-4, 3.1.1.2: at least 15 characters when it is the only factor, at least 64 allowed, no rules on
  // composition, spaces and all of Unicode taken, each code point counted as one.
  test("lengths from 15 to 128 are taken, counted in characters", () => {
    const phrase = "the heron waits by the mill until the frost has gone and then it walks over the stubble ";
    expect(passwordFault("heron mill fro")).toBe("PASSWORD_TOO_SHORT");
    expect(passwordFault("heron mill fros")).toBeNull();
    expect(passwordFault((phrase + phrase).slice(0, 128))).toBeNull();
    expect(passwordFault((phrase + phrase).slice(0, 129))).toBe("PASSWORD_TOO_LONG");
    expect(passwordFault("🌾🍄🌧🦔🪵🌰🐌")).toBe("PASSWORD_TOO_SHORT");
  });

  test.each([
    "only small letters here",
    "UPPER CASE AND SPACES",
    "日本語の長いパスワードの例文です",
    "8351 0926 4470 1938",
  ])("no composition rule refuses %s", (password) => {
    expect(passwordFault(password)).toBeNull();
  });

  test("a long hostile one is judged quickly", () => {
    const started = performance.now();
    passwordFault("a1b2".repeat(32));
    passwordFault("qwerty!password?".repeat(8));
    expect(performance.now() - started).toBeLessThan(3000);
  });
});

describe("how passwords are kept", () => {
  test("by argon2id with at least 19 MiB, two passes, one lane (OWASP Password Storage Cheat Sheet)", async () => {
    const kept = await hashPassword("the heron waits by the mill");
    expect(kept).toMatch(/^\$argon2id\$v=19\$/);
    const options = parseOptions(kept);
    expect(options.memoryCost).toBeGreaterThanOrEqual(19 * 1024);
    expect(options.timeCost).toBeGreaterThanOrEqual(2);
    expect(options.saltLen).toBeGreaterThanOrEqual(16);
  });

  test("only the password itself matches, however its accents were typed", async () => {
    const kept = await hashPassword("m\u00e1s grano que agua");
    expect(await passwordMatches(kept, "ma\u0301s grano que agua")).toBe(true);
    expect(await passwordMatches(kept, "mas grano que agua")).toBe(false);
  });

  test("nobody's password never matches and takes about as long as somebody's", async () => {
    const kept = await hashPassword("the heron waits by the mill");
    await passwordMatches(undefined, "warm up");
    const timed = async (hash: string | undefined) => {
      const started = performance.now();
      for (let i = 0; i < 5; i++) expect(await passwordMatches(hash, "a wrong guess entirely")).toBe(false);
      return performance.now() - started;
    };
    const [known, unknown] = [await timed(kept), await timed(undefined)];
    expect(unknown / known).toBeGreaterThan(0.4);
    expect(unknown / known).toBeLessThan(2.5);
  });
});
