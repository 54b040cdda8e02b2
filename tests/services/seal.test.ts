import { createDecipheriv } from "node:crypto";
import { beforeAll, describe, expect, it } from "vitest";
import { newSecretHex, openSecret, sealSecret } from "@/lib/services/seal";

const KEY = "000102030405060708090a0b0c0d0e0f101112131415161718191a1b1c1d1e1f";

beforeAll(() => {
  Object.assign(process.env, {
    DATABASE_URL: "postgresql://nobody@127.0.0.1:1/none",
    GRAINLOT_MODE: "demo",
    NEXTAUTH_SECRET: "0123456789abcdefghijklmnopqrstuvwxyz0123",
    NEXTAUTH_URL: "http://127.0.0.1:3000",
    GRAINLOT_SEAL_KEY: KEY,
  });
});

describe("a sealed secret", () => {
  it("opens to what was sealed, and no two sealings look alike", () => {
    const secret = newSecretHex();
    expect(secret).toMatch(/^[0-9a-f]{64}$/);
    expect(openSecret(sealSecret(secret))).toBe(secret);
    expect(Buffer.from(sealSecret(secret)).equals(Buffer.from(sealSecret(secret)))).toBe(false);
  });

  it("is laid out as nonce, tag, ciphertext, so that any AES-256-GCM opens it", () => {
    const stored = Buffer.from(sealSecret("ab".repeat(32)));
    expect(stored).toHaveLength(12 + 16 + 32);
    const plain = createDecipheriv("aes-256-gcm", Buffer.from(KEY, "hex"), stored.subarray(0, 12));
    plain.setAuthTag(stored.subarray(12, 28));
    const opened = Buffer.concat([plain.update(stored.subarray(28)), plain.final()]);
    expect(opened.toString("hex")).toBe("ab".repeat(32));
  });

  it.each([0, 12, 28, 59])("is refused when byte %i was changed", (at) => {
    const stored = sealSecret("ab".repeat(32));
    stored[at] = stored[at]! ^ 1;
    expect(() => openSecret(stored)).toThrow(/GRAINLOT_SEAL_KEY/);
  });
});
