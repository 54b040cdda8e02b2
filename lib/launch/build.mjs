import { join } from "node:path";
import { diskFull, isDiskFull, Problem, tail } from "./problem.mjs";
import { run } from "./run.mjs";
import { unlessStamped } from "./stamp.mjs";

/**
 * `next build`, when the sources have changed since the last one.
 * @param {string} root
 * @param {string} sourceHash
 * @param {NodeJS.ProcessEnv} env
 * @param {(text: string) => void} say
 */
export async function ensureBuilt(root, sourceHash, env, say) {
  await unlessStamped(join(root, ".next", "grainlot-stamp"), sourceHash, async () => {
    say("Building the pages (only when the sources have changed) …");
    const buildEnv = { ...env, NODE_ENV: "production", NEXT_TELEMETRY_DISABLED: "1" };
    const { code, output } = await run(process.execPath, ["node_modules/next/dist/bin/next", "build"], {
      cwd: root,
      env: buildEnv,
    });
    if (code === 0) return;
    if (isDiskFull(output)) throw diskFull("the pages were built");
    console.error(tail(output, 40));
    throw new Problem(
      "The pages could not be built; the builder's own words stand above. Correct the source they name and start again.",
    );
  });
}
