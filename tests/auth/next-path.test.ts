import { describe, expect, it } from "vitest";
import { safeNextPath } from "@/lib/auth/next-path";

describe("where to go after signing in", () => {
  it.each(["/", "/outings?trial=1#box", "/join/ABC", "/trials/a%20b"])("%s stays as it is", (path) => {
    expect(safeNextPath(path)).toBe(path);
  });

  // Ways to name another site that a browser follows: OWASP Unvalidated Redirects and Forwards Cheat Sheet, and the
  // WHATWG URL standard, in which a backslash is a slash and tabs and line ends vanish.
  it.each([
    "https://evil.example/",
    "//evil.example/",
    "/\\evil.example/",
    "\\\\evil.example",
    "/\t/evil.example",
    "/\n/evil.example",
    "javascript:alert(1)",
    "evil.example",
    "",
    undefined,
    null,
  ])("%j goes to the start page", (next) => {
    expect(safeNextPath(next)).toBe("/");
  });
});
