import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

const folders = ["app", "lib", "shared", "prisma"];
/** Made from the others. */
const leftOut = new Set(["lib/data/generated"]);
const rootFile = /^[^.].*\.(ts|mjs|js|json)$/;

/**
 * @param {string} root
 * @returns {string} a hash over name and content of every file that a build reads, and over what builds it
 */
export function hashSources(root) {
  const hash = createHash("sha256").update(process.version);
  const paths = [
    ...readdirSync(root, { withFileTypes: true })
      .filter((entry) => entry.isFile() && rootFile.test(entry.name) && entry.name !== "next-env.d.ts")
      .map((entry) => entry.name),
    ...folders.flatMap((folder) => filesBelow(root, folder)),
  ];
  for (const path of paths.sort()) {
    const content = readFileSync(join(root, path));
    hash.update(`\0${path}\0${content.length}\0`).update(content);
  }
  return hash.digest("hex");
}

/**
 * @param {string} root
 * @param {string} folder relative to it
 * @returns {string[]} paths relative to the root
 */
function filesBelow(root, folder) {
  if (leftOut.has(folder)) return [];
  let entries;
  try {
    entries = readdirSync(join(root, folder), { withFileTypes: true });
  } catch (error) {
    if (/** @type {NodeJS.ErrnoException} */ (error).code === "ENOENT") return [];
    throw error;
  }
  return entries.flatMap((entry) => {
    const path = `${folder}/${entry.name}`;
    return entry.isDirectory() ? filesBelow(root, path) : entry.isFile() ? [path] : [];
  });
}
