import { existsSync, readFileSync, rmSync, statfsSync } from "node:fs";
import { join } from "node:path";
import { platformPackage } from "./place.mjs";
import { diskFull, isDiskFull, Problem, tail } from "./problem.mjs";
import { run } from "./run.mjs";

/** What an install takes in node_modules, with some room for the build after it. */
const neededBytes = 1_400_000_000;
const fullBytes = 2_000_000;

/**
 * Installs the packages unless what is there fits the lock file. Their install scripts are not run: they would
 * compile or fetch things Grainlot does not use; the one that matters is `linkLibraries`.
 * @param {string} root
 * @param {(text: string) => void} say
 * @throws {Problem} when npm fails
 */
export async function ensureInstalled(root, say) {
  if (isInstalled(root)) return;
  requireRoom(root);
  say("Installing packages (only when they have changed; half a minute or more) …");
  const verb = existsSync(join(root, "package-lock.json")) ? "ci" : "install";
  const flags = [
    "--ignore-scripts",
    "--include=dev",
    "--include=optional",
    "--no-audit",
    "--no-fund",
    "--loglevel=error",
  ];
  const npm = npmCommand(process.env);
  // npm meets a full disk with minutes of silent retries.
  const giveUp = () => freeBytes(root) < fullBytes;
  const { code, output } = await run(npm.command, [...npm.args, verb, ...flags], { cwd: root, giveUp }).catch(
    (error) => {
      if (error.code !== "ENOENT") throw error;
      throw new Problem(
        "npm was not found. Install it (it comes with Node) or add its folder to PATH, and start again.",
      );
    },
  );
  if (code === 0) return;
  if (isDiskFull(output) || giveUp()) {
    // Half an install is of no use, and its room is.
    rmSync(join(root, "node_modules"), { recursive: true, force: true });
    throw diskFull("packages were installed");
  }
  console.error(tail(output, 12));
  if (/EACCES|EPERM|EROFS/.test(output)) {
    throw new Problem(`npm may not write in ${root}. Start Grainlot as the user who owns that folder.`);
  }
  throw new Problem(
    "The packages could not be installed; npm's own words stand above. Check the network connection and start again.",
  );
}

/**
 * @param {string} root
 * @throws {Problem} when a first install can't fit
 */
function requireRoom(root) {
  const free = freeBytes(root);
  if (existsSync(join(root, "node_modules")) || free >= neededBytes) return;
  throw new Problem(
    `The disk has ${Math.floor(free / 1e6)} MB left, and Grainlot needs about ${neededBytes / 1e6} MB in its folder. Free some space, or move the folder to a disk that has it, and start again.`,
  );
}

/** @param {string} folder */
function freeBytes(folder) {
  const { bavail, bsize } = statfsSync(folder);
  return bavail * bsize;
}

/**
 * npm keeps in node_modules a list of what it put there; it is written last, so an interrupted install has none.
 * @param {string} root
 * @returns {boolean} whether every package of the lock file is there in its version, optional ones of other platforms apart
 */
export function isInstalled(root) {
  const installed = readPackages(join(root, "node_modules", ".package-lock.json"));
  if (!installed) return false;
  const wanted = readPackages(join(root, "package-lock.json"));
  if (!wanted) return true;
  const complete = Object.entries(wanted).every(([path, { version, optional, devOptional, peer }]) => {
    if (path === "") return true;
    const found = installed[path];
    return found ? found.version === version : optional === true || devOptional === true || peer === true;
  });
  const platform = platformPackage(root)
    .slice(root.length + 1)
    .replaceAll("\\", "/");
  return complete && (!(platform in wanted) || existsSync(platformPackage(root)));
}

/**
 * @param {string} path
 * @returns {Record<string, { version?: string, optional?: boolean, devOptional?: boolean, peer?: boolean }> | null}
 */
function readPackages(path) {
  try {
    return JSON.parse(readFileSync(path, "utf8")).packages ?? null;
  } catch {
    return null;
  }
}

/**
 * @param {NodeJS.ProcessEnv} env
 * @returns {{ command: string, args: string[] }} the npm that started us, else the one on PATH
 */
function npmCommand(env) {
  const own = env.npm_execpath;
  if (own && /npm-cli\.c?js$/.test(own)) return { command: process.execPath, args: [own] };
  return { command: "npm", args: [] };
}
