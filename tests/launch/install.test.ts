import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import { isInstalled } from "@/lib/launch/install.mjs";

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "grainlot-install-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

type Packages = Record<string, { version?: string; optional?: boolean }>;

function write(path: string, packages: Packages): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), JSON.stringify({ packages }));
}
const wanted = (packages: Packages) => write("package-lock.json", { "": { version: "0.1.0" }, ...packages });
const found = (packages: Packages) => write("node_modules/.package-lock.json", packages);

it("needs an install when nothing is there, or when one was cut off", () => {
  wanted({ "node_modules/a": { version: "1.0.0" } });
  expect(isInstalled(folder)).toBe(false);
  mkdirSync(join(folder, "node_modules", "a"), { recursive: true });
  expect(isInstalled(folder)).toBe(false);
});

it("needs none when every package is there in its version", () => {
  wanted({
    "node_modules/a": { version: "1.0.0" },
    "node_modules/other-platform": { version: "2.0.0", optional: true },
  });
  found({ "node_modules/a": { version: "1.0.0" } });
  expect(isInstalled(folder)).toBe(true);
});

it("needs one when the lock file has changed", () => {
  wanted({ "node_modules/a": { version: "1.0.1" } });
  found({ "node_modules/a": { version: "1.0.0" } });
  expect(isInstalled(folder)).toBe(false);
  wanted({ "node_modules/a": { version: "1.0.0" }, "node_modules/b": { version: "1.0.0" } });
  expect(isInstalled(folder)).toBe(false);
});
