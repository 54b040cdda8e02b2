// What `npm start` does, in order. Everything imported here is Node's own: packages are loaded once installed.
import { chmodSync, existsSync, mkdirSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { ensureBuilt } from "./build.mjs";
import { loadDemo, readSignIns, signInTable } from "./demo.mjs";
import { startGuard } from "./guard.mjs";
import { ensureInstalled } from "./install.mjs";
import { prepare } from "./prepare.mjs";
import { explainFileError, Problem } from "./problem.mjs";
import { endRunning } from "./run.mjs";
import { loadSecrets } from "./secrets.mjs";
import { migrationsOf, requireFreeAddress, startServer } from "./serve.mjs";
import { serverEnv } from "./server-env.mjs";
import { readSettings } from "./settings.mjs";
import { hashSources } from "./sources.mjs";

const say = (/** @type {string} */ text) => console.log(text);

/** @param {{ development: boolean }} options development: `next dev` instead of a build */
export async function launch({ development }) {
  const root = dirname(dirname(dirname(fileURLToPath(import.meta.url))));
  const guard = startGuard();
  const stop = stopper(guard);
  for (const signal of /** @type {const} */ (["SIGINT", "SIGTERM", "SIGHUP"]))
    process.on(signal, () => stop(0));
  try {
    await start(root, guard, development);
    guard.onEnd((event) => {
      console.error(
        `Grainlot stops: ${event === "server-exit" ? "the web server" : event === "database-exit" ? "the database" : "its guardian process"} ended by itself. Its log in .data says more; npm start brings it back.`,
      );
      stop(1);
    });
  } catch (error) {
    const explained = explainFileError(error, "starting");
    await stop(1, explained instanceof Problem ? explained.message : explained);
  }
}

/**
 * @param {import("./guard.mjs").Guard} guard
 * @returns {(code: number, reason?: unknown) => Promise<void>} ends everything, then this process; a second call hastens the first
 */
function stopper(guard) {
  let stopping = false;
  return async (code, reason) => {
    if (stopping) return guard.hurry();
    stopping = true;
    endRunning();
    await guard.close();
    if (reason) console.error(reason);
    process.exit(code);
  };
}

/**
 * @param {string} root
 * @param {import("./guard.mjs").Guard} guard
 * @param {boolean} development
 */
async function start(root, guard, development) {
  const settings = readSettings(process.env);
  const stateFolder = join(root, ".data");
  mkdirSync(stateFolder, { recursive: true });
  // Closed to listing; PostgreSQL's own user must pass through when root starts it.
  chmodSync(stateFolder, 0o711);
  if (!settings.ownerUrl) await requireOnlyLauncher(guard, stateFolder, settings.origin);
  await requireFreeAddress(settings.host, settings.port);
  await ensureInstalled(root, say);

  const secrets = settings.mode === "demo" ? loadSecrets(stateFolder) : null;
  const sourceHash = hashSources(root);
  const signInsFile = join(stateFolder, "demo-sign-ins.json");
  // PostgreSQL comes up while the sources are prepared; the demo is loaded while the pages are built.
  const prepared = prepare(root, sourceHash);
  const serving = openDatabase(root, guard, stateFolder, settings, secrets).then((appUrl) => ({
    ...serverEnv(process.env, settings, appUrl, secrets),
    ...(settings.mode === "demo" && { DEMO_SIGN_INS_FILE: signInsFile }),
  }));
  const ready = Promise.all([serving, prepared]).then(([env]) => env);
  const demo = settings.mode === "demo" ? ready.then((env) => loadDemo(root, signInsFile, env)) : ready;
  demo.catch(() => {}); // reported where it is awaited
  const built = development ? ready : ready.then((env) => ensureBuilt(root, sourceHash, env, say));
  const demoLoadedBefore = existsSync(signInsFile);
  const [env] = await Promise.all([ready, built, demoLoadedBefore ? null : demo]);

  const logFile = settings.mode === "demo" && !development ? join(stateFolder, "server.log") : null;
  const { host, port, origin } = settings;
  await Promise.all([startServer(guard, { root, host, port, origin, env, logFile, development }), demo]);
  announce(settings, signInsFile, logFile);
}

/**
 * @param {import("./guard.mjs").Guard} guard
 * @param {string} stateFolder
 * @param {string} origin
 */
async function requireOnlyLauncher(guard, stateFolder, origin) {
  const other = await guard.ask("claim", { folder: join(stateFolder, "running"), origin });
  if (other) {
    throw new Problem(
      `Grainlot already runs from this folder, at ${other.origin} (process ${other.launcherPid}). Use that one, or stop it first with Ctrl-C in its terminal.`,
    );
  }
}

/**
 * @param {string} root
 * @param {import("./guard.mjs").Guard} guard
 * @param {string} stateFolder
 * @param {import("./settings.mjs").Settings} settings
 * @param {import("./secrets.mjs").Secrets | null} secrets
 * @returns {Promise<string>} the connection string of the role that owns nothing
 */
async function openDatabase(root, guard, stateFolder, settings, secrets) {
  const { openKeptDatabase } = await import("./database.mjs");
  const { ensureAppRole, requireOwnsNothing } = await import("./app-role.mjs");
  const { migrate } = await import("./migrate.mjs");
  const ownerUrl =
    settings.ownerUrl ?? (secrets && (await openKeptDatabase(guard, { root, stateFolder, secrets })));
  if (ownerUrl === null) throw new Error("demo mode without secrets");
  await migrate({ connectionString: ownerUrl, directory: migrationsOf(root) });
  if (!settings.appUrl) return ensureAppRole(ownerUrl, process.env.PGPASSWORD);
  await requireOwnsNothing(settings.appUrl);
  return settings.appUrl;
}

/**
 * @param {import("./settings.mjs").Settings} settings
 * @param {string} signInsFile
 * @param {string | null} logFile
 */
function announce({ mode, origin }, signInsFile, logFile) {
  say(
    `\nGrainlot runs at ${origin}${mode === "demo" ? " as a demo: its trials, growers and results are invented." : "."}`,
  );
  const signIns = mode === "demo" ? readSignIns(signInsFile) : [];
  if (signIns.length > 0) say(`\nSign in as\n${signInTable(signIns)}`);
  say(`\n${logFile ? `Log: ${logFile}. ` : ""}Ctrl-C stops it.`);
}
