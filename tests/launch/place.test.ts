import { existsSync, lstatSync, mkdirSync, mkdtempSync, readlinkSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import { findPlace, linkLibraries } from "@/lib/launch/place.mjs";

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "grainlot-place-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

it("says what to do where no PostgreSQL is shipped for the platform", () => {
  expect(() => findPlace(folder, folder, "id")).toThrow(
    new RegExp(`No PostgreSQL is shipped for ${process.platform} on ${process.arch}\\. Set DATABASE_URL`),
  );
});

it("links the libraries' short names once, and mends a dangling link", () => {
  const library = join(folder, "native", "lib");
  mkdirSync(library, { recursive: true });
  writeFileSync(join(library, "libpq.so.5.18"), "library");
  const list = [{ source: "native/lib/libpq.so.5.18", target: "native/lib/libpq.so.5" }];
  writeFileSync(join(folder, "native", "pg-symlinks.json"), JSON.stringify(list));
  linkLibraries(folder);
  linkLibraries(folder);
  expect(lstatSync(join(library, "libpq.so.5")).isSymbolicLink()).toBe(true);
  expect(readlinkSync(join(library, "libpq.so.5"))).toBe("libpq.so.5.18");
  rmSync(join(library, "libpq.so.5.18"));
  writeFileSync(join(library, "libpq.so.5.19"), "library");
  list[0] = { source: "native/lib/libpq.so.5.19", target: "native/lib/libpq.so.5" };
  writeFileSync(join(folder, "native", "pg-symlinks.json"), JSON.stringify(list));
  linkLibraries(folder);
  expect(existsSync(join(library, "libpq.so.5"))).toBe(true);
});
