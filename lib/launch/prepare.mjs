// `npm run prepare` (npm runs it after an install): what the sources need made before they can run or be checked.
import { createHash } from "node:crypto";
import { chmodSync, existsSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { linkLibraries, platformPackage } from "./place.mjs";
import { diskFull, explainFileError, isDiskFull, Problem, tail } from "./problem.mjs";
import { run } from "./run.mjs";
import { hashSources } from "./sources.mjs";
import { unlessStamped } from "./stamp.mjs";

/**
 * What is bundled: the command line (whose entry starts with a #! line) and the child processes carry everything in one
 * file, the demo uses installed packages.
 */
const bundles = [
  { entry: "lib/cli/main.ts", outfile: "dist/grainlot.cjs", selfContained: true, command: true },
  { entry: "lib/jobs/pool-child.ts", outfile: "dist/pool-child.cjs", selfContained: true, command: false },
  { entry: "lib/jobs/plan-child.ts", outfile: "dist/plan-child.cjs", selfContained: true, command: false },
  { entry: "lib/demo/main.ts", outfile: "dist/demo.mjs", selfContained: false, command: false },
];

/**
 * @param {string} root
 * @param {string} sourceHash
 */
export async function prepare(root, sourceHash) {
  linkLibraries(platformPackage(root));
  await generateClient(root);
  await unlessStamped(join(root, "dist", ".stamp"), sourceHash, () => bundle(root));
}

/**
 * The database client, when the schema has changed.
 * @param {string} root
 */
async function generateClient(root) {
  const schema = join(root, "prisma", "schema.prisma");
  if (!existsSync(schema)) return;
  const version = JSON.parse(
    readFileSync(join(root, "node_modules", "prisma", "package.json"), "utf8"),
  ).version;
  const hash = createHash("sha256").update(version).update(readFileSync(schema)).digest("hex");
  await unlessStamped(join(root, "lib", "data", "generated", ".stamp"), hash, async () => {
    // Generating needs no engine; naming some program keeps Prisma from fetching one.
    const env = {
      ...process.env,
      CHECKPOINT_DISABLE: "1",
      PRISMA_HIDE_UPDATE_MESSAGE: "1",
      PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
    };
    const { code, output } = await run(process.execPath, ["node_modules/prisma/build/index.js", "generate"], {
      cwd: root,
      env,
    });
    if (code === 0) return;
    if (isDiskFull(output)) throw diskFull("the database client was generated");
    console.error(tail(output, 20));
    throw new Problem(
      "The database client could not be generated; Prisma's own words stand above. Correct prisma/schema.prisma and start again.",
    );
  });
}

/** @param {string} root */
async function bundle(root) {
  const { build } = await import("esbuild");
  const present = bundles.filter(({ entry }) => existsSync(join(root, entry)));
  await Promise.all(
    present.map(async ({ entry, outfile, selfContained, command }) => {
      const path = join(root, outfile);
      await build({
        absWorkingDir: root,
        entryPoints: [entry],
        outfile: path,
        bundle: true,
        platform: "node",
        target: "node20",
        // Some of the installed packages can only be imported, not required.
        format: selfContained ? "cjs" : "esm",
        packages: selfContained ? "bundle" : "external",
        logLevel: "error",
      });
      if (command) chmodSync(path, 0o755);
    }),
  );
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? "").href) {
  const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
  if (
    !existsSync(join(root, "node_modules", "esbuild")) ||
    !existsSync(join(root, "node_modules", "prisma"))
  ) {
    console.error(
      "Development packages are left out, so nothing was generated or bundled: npm start installs them when it needs them.",
    );
  } else {
    try {
      await prepare(root, hashSources(root));
    } catch (error) {
      const explained = explainFileError(error, "preparing the sources");
      console.error(explained instanceof Problem ? explained.message : explained);
      process.exit(1);
    }
  }
}
