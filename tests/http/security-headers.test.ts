import { describe, expect, test } from "vitest";
import { contentSecurityPolicy, securityHeaders } from "@/lib/http/security-headers";

const PRODUCTION = { nonce: "bm9uY2U=", development: false, overTls: true };

/** The policy as a browser reads it: W3C Content Security Policy Level 3, section 2.2.1. */
function directives(policy: string): Map<string, string[]> {
  return new Map(
    policy.split(";").map((directive) => {
      const [name = "", ...values] = directive.trim().split(/\s+/);
      return [name, values];
    }),
  );
}

describe("content security policy", () => {
  test("scripts run by nonce only: no inline, no eval, no host list", () => {
    const scripts = directives(contentSecurityPolicy(PRODUCTION)).get("script-src");
    expect(scripts).toEqual(["'self'", "'nonce-bm9uY2U='", "'strict-dynamic'"]);
  });

  test("eval is allowed to the development server alone", () => {
    const policy = contentSecurityPolicy({ ...PRODUCTION, development: true });
    expect(directives(policy).get("script-src")).toContain("'unsafe-eval'");
  });

  test("nobody may frame a page, no plugin runs, and forms and the base stay here", () => {
    const policy = directives(contentSecurityPolicy(PRODUCTION));
    expect(policy.get("frame-ancestors")).toEqual(["'none'"]);
    expect(policy.get("object-src")).toEqual(["'none'"]);
    expect(policy.get("form-action")).toEqual(["'self'"]);
    expect(policy.get("base-uri")).toEqual(["'self'"]);
  });

  test("requests are upgraded over TLS only, or a plain address would break", () => {
    const has = (overTls: boolean) =>
      directives(contentSecurityPolicy({ ...PRODUCTION, overTls })).has("upgrade-insecure-requests");
    expect([has(true), has(false)]).toEqual([true, false]);
  });
});

describe("security headers", () => {
  test("strict transport security in production over TLS, nowhere else (RFC 6797, section 7.2)", () => {
    const header = (serving: typeof PRODUCTION) => securityHeaders(serving)["strict-transport-security"];
    expect(header(PRODUCTION)).toMatch(/^max-age=(\d{8,})/);
    expect(header({ ...PRODUCTION, overTls: false })).toBeUndefined();
    expect(header({ ...PRODUCTION, development: true })).toBeUndefined();
  });

  test("place and camera are this site's own, types aren't guessed", () => {
    const headers = securityHeaders(PRODUCTION);
    expect(headers["permissions-policy"]).toContain("geolocation=(self), camera=(self)");
    expect(headers["x-content-type-options"]).toBe("nosniff");
  });
});
