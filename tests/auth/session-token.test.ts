import { decode, encode } from "next-auth/jwt";
import { beforeAll, describe, expect, it, vi } from "vitest";
import { BORROWED_SECONDS, renewedToken, sessionToken } from "@/lib/auth/session-token";

const secret = "0123456789abcdefghijklmnopqrstuvwxyz0123";
const claims = { accountId: "01936d50-4f5e-7000-8000-000000000001", sessionVersion: 2 };
const DAY_MS = 24 * 3_600_000;

beforeAll(() => {
  for (const [name, value] of Object.entries({
    DATABASE_URL: "postgresql://nowhere/none",
    GRAINLOT_MODE: "demo",
    NEXTAUTH_SECRET: secret,
    NEXTAUTH_URL: "http://127.0.0.1:3000",
    GRAINLOT_SEAL_KEY: "0123456789abcdef".repeat(4),
  })) {
    vi.stubEnv(name, value);
  }
});

describe("a session in use", () => {
  it("is renewed once it is a day old, with the same claims and a new end", async () => {
    const token = await sessionToken(claims);
    expect(await renewedToken(token, new Date(Date.now() + DAY_MS / 2))).toBeNull();
    const renewed = await renewedToken(token, new Date(Date.now() + 2 * DAY_MS));
    const held = await decode({ token: renewed!, secret });
    expect(held).toMatchObject(claims);
    expect(Number(held?.exp) * 1000).toBeGreaterThan(Date.now() + 179 * DAY_MS);
  });

  it("is never renewed on somebody else's phone, where it ends after two hours", async () => {
    const endsAt = Math.floor(Date.now() / 1000) + BORROWED_SECONDS;
    const token = await sessionToken({ ...claims, endsAt });
    expect(await renewedToken(token, new Date(Date.now() + 2 * DAY_MS))).toBeNull();
    const held = await decode({ token, secret });
    expect(Number(held?.exp)).toBeLessThanOrEqual(endsAt + 1);
  });

  it("is not made of a stranger's token, of one that has run out, or of none", async () => {
    const later = new Date(Date.now() + 2 * DAY_MS);
    const forged = await encode({ token: claims, secret: secret.replace("0", "9") });
    const past = await encode({ token: claims, secret, maxAge: -60 });
    for (const token of [forged, past, "", "x.y.z"]) expect(await renewedToken(token, later)).toBeNull();
  });
});
