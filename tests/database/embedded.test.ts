import { spawn } from "node:child_process";
import { chmodSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, it } from "vitest";
import { withClient } from "@/lib/launch/client.mjs";
import { openKeptDatabase } from "@/lib/launch/database.mjs";
import { type Guard, startGuard } from "@/lib/launch/guard.mjs";
import { platformPackage } from "@/lib/launch/place.mjs";
import { isAlive } from "@/lib/launch/processes.mjs";
import { loadSecrets } from "@/lib/launch/secrets.mjs";
import { root } from "../harness/root";

// Where the embedded server has no program, Grainlot runs on DATABASE_URL only.
const shipped = existsSync(platformPackage(root));

let stateFolder: string;
let guards: Guard[];

beforeEach(() => {
  stateFolder = mkdtempSync(join(tmpdir(), "grainlot-embedded-"));
  chmodSync(stateFolder, 0o755);
  guards = [];
});
afterEach(async () => {
  await Promise.all(guards.map((guard) => guard.close()));
  rmSync(stateFolder, { recursive: true, force: true });
});

async function open(): Promise<{ guard: Guard; url: string }> {
  const guard = startGuard();
  guards.push(guard);
  return {
    guard,
    url: await openKeptDatabase(guard, { root, stateFolder, secrets: loadSecrets(stateFolder) }),
  };
}

const write = (url: string) =>
  withClient(url, (client) => client.query("CREATE TABLE kept (id int); INSERT INTO kept VALUES (7)"));
const read = (url: string) =>
  withClient(url, async (client) => (await client.query("SELECT id FROM kept")).rows);
const lockFile = () => join(stateFolder, "postgres", "postmaster.pid");
const postmaster = () => Number(readFileSync(lockFile(), "utf8").split("\n")[0]);

async function killOutright(pid: number | undefined): Promise<void> {
  process.kill(pid ?? 0, "SIGKILL");
  await expect.poll(() => isAlive(pid ?? 0)).toBe(false);
}

it.runIf(shipped)("keeps what was written over an orderly stop", async () => {
  const { guard, url } = await open();
  await write(url);
  const pid = postmaster();
  await guard.close();
  expect(isAlive(pid)).toBe(false);
  expect(existsSync(lockFile())).toBe(false);
  expect(await read((await open()).url)).toEqual([{ id: 7 }]);
});

it.runIf(shipped)("keeps it when everything was killed outright and the lock file stayed", async () => {
  const { guard, url } = await open();
  await write(url);
  const pid = postmaster();
  await killOutright(pid);
  await killOutright(guard.pid);
  expect(existsSync(lockFile())).toBe(true);
  expect(await read((await open()).url)).toEqual([{ id: 7 }]);
});

it.runIf(shipped)("starts when the lock file's process id has become another program", async () => {
  const { guard, url } = await open();
  await write(url);
  const pid = postmaster();
  const lock = readFileSync(lockFile(), "utf8");
  await guard.close();
  writeFileSync(lockFile(), lock.replace(String(pid), String(process.pid)));
  expect(await read((await open()).url)).toEqual([{ id: 7 }]);
  expect(isAlive(process.pid)).toBe(true);
});

it.runIf(shipped)("ends the database when the process that asked for it is killed", async () => {
  const program = `
    import { startGuard } from ${JSON.stringify(join(root, "lib/launch/guard.mjs"))};
    import { openKeptDatabase } from ${JSON.stringify(join(root, "lib/launch/database.mjs"))};
    import { loadSecrets } from ${JSON.stringify(join(root, "lib/launch/secrets.mjs"))};
    const [root, stateFolder] = process.argv.slice(-2);
    await openKeptDatabase(startGuard(), { root, stateFolder, secrets: loadSecrets(stateFolder) });
    console.log("up");`;
  const launcher = spawn(process.execPath, ["--input-type=module", "-e", program, root, stateFolder], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  await new Promise((resolve) => launcher.stdout.once("data", resolve));
  const pid = postmaster();
  expect(isAlive(pid)).toBe(true);
  launcher.kill("SIGKILL");
  await expect.poll(() => isAlive(pid), { timeout: 20_000 }).toBe(false);
  expect(existsSync(lockFile())).toBe(false);
});

it.runIf(shipped)("two launchers of one folder know of each other", async () => {
  const folder = join(stateFolder, "running");
  const [one, other] = [startGuard(), startGuard()];
  guards.push(one, other);
  expect(await one.ask("claim", { folder, origin: "http://127.0.0.1:3000" })).toBeNull();
  expect(await other.ask("claim", { folder, origin: "http://127.0.0.1:3001" })).toMatchObject({
    origin: "http://127.0.0.1:3000",
  });
  await killOutright(one.pid);
  const third = startGuard();
  guards.push(third);
  await other.close();
  expect(await third.ask("claim", { folder, origin: "http://127.0.0.1:3002" })).toBeNull();
});
