import { mkdirSync, mkdtempSync, readdirSync, realpathSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { cruise, type ICruiseOptions, type ICruiseResult } from "dependency-cruiser";
import extractTSConfig from "dependency-cruiser/config-utl/extract-ts-config";
import { afterEach, beforeEach, expect, it } from "vitest";
import configuration from "../.dependency-cruiser.mjs";
import { root } from "./harness/root";

const { options, ...ruleSet } = configuration;

async function cruiseIn(baseDir: string, paths: string[]): Promise<ICruiseResult> {
  const cruiseOptions: ICruiseOptions = { ...options, ruleSet, validate: true, baseDir };
  const tsConfig = extractTSConfig(join(root, "tsconfig.json"));
  const { output } = await cruise(paths, cruiseOptions, undefined, { tsConfig });
  return output as ICruiseResult;
}

function sourcesBelow(folder: string): string[] {
  return readdirSync(join(root, folder), { withFileTypes: true }).flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory()) return path === "lib/data/generated" ? [] : sourcesBelow(path);
    return /\.(ts|tsx|mjs)$/.test(entry.name) ? [path] : [];
  });
}

it("every source file is under the rules, and none breaks one", async () => {
  const folders = ["app", "lib", "shared"];
  const { modules, summary } = await cruiseIn(root, folders);
  const seen = new Set(modules.map((module) => module.source));
  const sources = folders.flatMap(sourcesBelow);
  expect(sources.length).toBeGreaterThan(80);
  expect(sources.filter((path) => !seen.has(path))).toEqual([]);
  expect(
    summary.violations.map((violation) => `${violation.rule.name}: ${violation.from} → ${violation.to}`),
  ).toEqual([]);
}, 60_000);

/** Rule, the file that breaks it, its import, and what that import leads to. */
const planted: [rule: string, from: string, specifier: string, to: string][] = [
  ["shared-is-the-bottom", "shared/a.ts", "../lib/errors/b", "lib/errors/b.ts"],
  ["shared-is-the-bottom", "shared/a.ts", "node:fs", ""],
  ["engine-is-pure", "lib/engine/a.ts", "node:crypto", ""],
  ["engine-is-pure", "lib/engine/a.ts", "../services/b", "lib/services/b.ts"],
  ["engine-is-pure", "lib/engine/a.ts", "pkg", "node_modules/pkg/index.js"],
  ["only-data-uses-prisma", "lib/services/a.ts", "../data/generated/client", "lib/data/generated/client.ts"],
  ["only-data-uses-prisma", "app/page.tsx", "@prisma/client", "node_modules/@prisma/client/index.js"],
  ["data-is-below-services", "lib/data/a.ts", "../services/b", "lib/services/b.ts"],
  ["data-is-below-services", "lib/data/a.ts", "../engine/b", "lib/engine/b.ts"],
  ["services-are-below-requests", "lib/services/a.ts", "../../app/b", "app/b.ts"],
  ["nothing-imports-app", "lib/ui/a.ts", "../../app/b", "app/b.ts"],
  ["app-goes-through-services", "app/a.ts", "../lib/data/b", "lib/data/b.ts"],
  ["launch-before-install", "lib/launch/start.mjs", "pkg", "node_modules/pkg/index.js"],
  ["launch-before-install", "lib/launch/launch.mjs", "./migrate.mjs", "lib/launch/migrate.mjs"],
  ["no-tests-in-the-product", "lib/services/a.ts", "../../tests/b", "tests/b.ts"],
  ["no-development-packages", "lib/services/a.ts", "devpkg", "node_modules/devpkg/index.js"],
  ["no-cycles", "lib/auth/a.ts", "./b", "lib/auth/b.ts"],
  ["everything-resolves", "lib/auth/a.ts", "./nowhere", ""],
];

let folder: string;

beforeEach(() => {
  folder = realpathSync(mkdtempSync(join(tmpdir(), "grainlot-rules-")));
  write(
    "package.json",
    JSON.stringify({ dependencies: { pkg: "1", "@prisma/client": "1" }, devDependencies: { devpkg: "1" } }),
  );
});
afterEach(() => rmSync(folder, { recursive: true }));

function write(path: string, content: string): void {
  mkdirSync(dirname(join(folder, path)), { recursive: true });
  writeFileSync(join(folder, path), content);
}

it.each(planted)("catches a violation of %s in %s (import of %s)", async (rule, from, specifier, to) => {
  // The imported file imports back only where a cycle is wanted.
  if (to)
    write(
      to,
      rule === "no-cycles"
        ? 'import { a } from "./a";\nexport const b = () => a;\n'
        : "export const b = 1;\n",
    );
  const name = /node_modules\/((@[^/]+\/)?[^/]+)/.exec(to)?.[1];
  if (name)
    write(`node_modules/${name}/package.json`, JSON.stringify({ name, version: "1.0.0", main: "index.js" }));
  write(from, `import { b } from "${specifier}";\nexport const a = () => b;\n`);
  const { summary } = await cruiseIn(folder, [from]);
  expect(summary.violations.map((violation) => violation.rule.name)).toContain(rule);
});

it("lets the arrows through that the design draws", async () => {
  write("shared/word.ts", "export const word = 1;\n");
  write("lib/engine/e.ts", 'import { word } from "../../shared/word";\nexport const e = word;\n');
  write("lib/data/d.ts", 'import { word } from "../../shared/word";\nexport const d = word;\n');
  write(
    "lib/services/s.ts",
    'import { d } from "../data/d";\nimport { e } from "../engine/e";\nexport const s = d + e;\n',
  );
  write("app/page.ts", 'import { s } from "../lib/services/s";\nexport const page = s;\n');
  const { summary, modules } = await cruiseIn(folder, ["app", "lib", "shared"]);
  expect(modules).toHaveLength(5);
  expect(summary.violations).toEqual([]);
});
