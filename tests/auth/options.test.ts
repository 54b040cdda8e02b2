import { afterEach, describe, expect, it, vi } from "vitest";
import { askedFrom } from "@/lib/auth/request-origin";

const SETTINGS = {
  DATABASE_URL: "postgresql://nowhere/none",
  GRAINLOT_MODE: "demo",
  NEXTAUTH_SECRET: "0123456789abcdefghijklmnopqrstuvwxyz0123",
  GRAINLOT_SEAL_KEY: "0123456789abcdef".repeat(4),
};

afterEach(() => vi.unstubAllEnvs());

/** The settings as a server started with this address has them. */
async function optionsAt(address: string) {
  vi.resetModules();
  for (const [name, value] of Object.entries({ ...SETTINGS, NEXTAUTH_URL: address })) vi.stubEnv(name, value);
  const { authOptions } = await import("@/lib/auth/options");
  return authOptions();
}

describe("the session's cookie", () => {
  // RFC 6265bis, 4.1.3.2: a __Host- cookie is Secure, has the path / and no domain.
  it("is bound to this very host over TLS", async () => {
    const options = await optionsAt("https://grainlot.example");
    const cookie = options.cookies?.sessionToken;
    expect(cookie?.name).toMatch(/^__Host-/);
    expect(cookie?.options).toEqual({ httpOnly: true, sameSite: "lax", path: "/", secure: true });
    expect(options.useSecureCookies).toBe(true);
  });

  it("works without TLS on one's own machine", async () => {
    const options = await optionsAt("http://127.0.0.1:3000");
    expect(options.cookies?.sessionToken?.name).not.toMatch(/^__/);
    expect(options.cookies?.sessionToken?.options).toMatchObject({ httpOnly: true, secure: false });
  });
});

describe("the address limits count by", () => {
  it("is what the nearest proxy wrote, not what the client claims in front of it", () => {
    expect(askedFrom(new Headers({ "x-forwarded-for": "203.0.113.9, 198.51.100.7" }))).toBe("198.51.100.7");
    expect(askedFrom(new Headers({ "x-forwarded-for": "198.51.100.7" }))).toBe("198.51.100.7");
    expect(askedFrom(new Headers())).toBe("unknown");
  });
});
