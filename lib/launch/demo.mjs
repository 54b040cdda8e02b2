import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { diskFull, isDiskFull, Problem, tail } from "./problem.mjs";
import { run } from "./run.mjs";

/** @typedef {{ role: string, email: string, password: string }} SignIn */

/**
 * Loads the demo into a database without accounts; the program decides that itself.
 * @param {string} root
 * @param {string} signInsFile written by it, with random passwords
 * @param {NodeJS.ProcessEnv} env the server's
 */
export async function loadDemo(root, signInsFile, env) {
  const program = join(root, "dist", "demo.mjs");
  if (!existsSync(program)) return;
  const demoEnv = { ...env, GRAINLOT_DEMO: "1", NODE_ENV: "production", DEMO_SIGN_INS_FILE: signInsFile };
  const { code, output } = await run(process.execPath, [program], { cwd: root, env: demoEnv });
  if (code === 0) return;
  if (isDiskFull(output)) throw diskFull("the demo was loaded");
  console.error(tail(output, 20));
  throw new Problem(
    "The demo could not be loaded; its own words stand above. To start again from nothing, move the folder .data away.",
  );
}

/**
 * @param {string} signInsFile
 * @returns {SignIn[]}
 */
export function readSignIns(signInsFile) {
  if (!existsSync(signInsFile)) return [];
  return JSON.parse(readFileSync(signInsFile, "utf8"));
}

/**
 * @param {readonly SignIn[]} signIns
 * @returns {string} a table for the terminal
 */
export function signInTable(signIns) {
  const width = (/** @type {"role" | "email"} */ key) => Math.max(...signIns.map((each) => each[key].length));
  return signIns
    .map(
      ({ role, email, password }) =>
        `  ${role.padEnd(width("role"))}  ${email.padEnd(width("email"))}  ${password}`,
    )
    .join("\n");
}
