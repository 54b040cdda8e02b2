import { mkdirSync, mkdtempSync, rmSync, utimesSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import { hashSources } from "@/lib/launch/sources.mjs";
import { unlessStamped } from "@/lib/launch/stamp.mjs";
import { root } from "../harness/root";

let folder: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "grainlot-sources-"));
  write("app/page.tsx", "one");
  write("lib/a.ts", "a");
  write("package-lock.json", "{}");
});
afterEach(() => rmSync(folder, { recursive: true }));

function write(path: string, content: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), content);
}

it("changes with any source's content, name or absence", () => {
  const hashes = [hashSources(folder)];
  for (const [path, content] of [
    ["app/page.tsx", "two"],
    ["shared/b.ts", ""],
    ["package-lock.json", "{ }"],
    ["prisma/schema.prisma", "x"],
    ["next.config.ts", "x"],
  ] as const) {
    write(path, content);
    hashes.push(hashSources(folder));
  }
  rmSync(join(folder, "lib/a.ts"));
  hashes.push(hashSources(folder));
  expect(new Set(hashes).size).toBe(hashes.length);
});

it("does not change with times, nor with what is made, tested or kept", () => {
  const before = hashSources(folder);
  utimesSync(join(folder, "app/page.tsx"), 1, 1);
  for (const path of [
    "lib/data/generated/client.ts",
    "tests/a.test.ts",
    "next-env.d.ts",
    ".data/x",
    "README.md",
  ]) {
    write(path, "x");
  }
  expect(hashSources(folder)).toBe(before);
});

it("tells content apart from the next file's name", () => {
  write("lib/x.ts", "1");
  write("lib/y.ts", "2");
  const before = hashSources(folder);
  rmSync(join(folder, "lib/y.ts"));
  write("lib/x.ts", "1\0lib/y.ts\x001\x002");
  expect(hashSources(folder)).not.toBe(before);
});

it("hashes this project within half a second", () => {
  const begun = performance.now();
  hashSources(root);
  expect(performance.now() - begun).toBeLessThan(500);
});

it("does stamped work once per value, and again after an interrupted run", async () => {
  const stamp = join(folder, "out", "stamp");
  let runs = 0;
  const work = async () => void runs++;
  await unlessStamped(stamp, "1", work);
  await unlessStamped(stamp, "1", work);
  expect(runs).toBe(1);
  await expect(unlessStamped(stamp, "2", () => Promise.reject(new Error("cut off")))).rejects.toThrow(
    "cut off",
  );
  await unlessStamped(stamp, "1", work);
  expect(runs).toBe(2);
});
