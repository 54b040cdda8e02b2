import { randomBytes } from "node:crypto";
import { mkdirSync } from "node:fs";
import { join } from "node:path";
import type { TestProject } from "vitest/node";
import { ensureBuilt } from "@/lib/launch/build.mjs";
import { loadDemo, readSignIns, type SignIn } from "@/lib/launch/demo.mjs";
import { freePort } from "@/lib/launch/embedded.mjs";
import { type Guard, startGuard } from "@/lib/launch/guard.mjs";
import { prepare } from "@/lib/launch/prepare.mjs";
import { startServer } from "@/lib/launch/serve.mjs";
import { serverEnv } from "@/lib/launch/server-env.mjs";
import { hashSources } from "@/lib/launch/sources.mjs";
import { startDatabaseServer } from "./database-server";
import { findBrowser } from "./find-browser";
import { root } from "./root";
import { createMigratedDatabase, type DatabaseUrls } from "./template";

/** The server under test. */
export type AppUnderTest = {
  /** Such as "http://127.0.0.1:40123". */
  readonly origin: string;
  readonly signIns: readonly SignIn[];
} & DatabaseUrls;

declare module "vitest" {
  export interface ProvidedContext {
    browserPath: string;
    app: AppUnderTest;
  }
}

/** A browser, a fresh database with the demo, and `next start` on it. */
export default async function setup(project: TestProject): Promise<() => Promise<void>> {
  const browser = await findBrowser();
  console.log(`Browser: ${browser.name} ${browser.version} (${browser.path})`);
  project.provide("browserPath", browser.path);
  const database = await startDatabaseServer();
  const guard = startGuard();
  const stop = async () => {
    await guard.close();
    await database.stop();
  };
  try {
    const urls = await createMigratedDatabase(database.url, "grainlot");
    project.provide("app", { ...urls, ...(await startApp(guard, urls)) });
  } catch (error) {
    await stop();
    throw error;
  }
  return stop;
}

async function startApp(guard: Guard, { ownerUrl, appUrl }: DatabaseUrls) {
  const sourceHash = hashSources(root);
  await prepare(root, sourceHash);
  const folder = join(root, ".data", "test");
  mkdirSync(folder, { recursive: true });
  const host = "127.0.0.1";
  const port = await freePort();
  const origin = `http://${host}:${port}`;
  const settings = { host, port, origin, mode: "demo" as const, ownerUrl, appUrl: null };
  const secrets = {
    sessionSecret: randomBytes(32).toString("hex"),
    sealKey: randomBytes(32).toString("hex"),
  };
  const signInsFile = join(folder, "sign-ins.json");
  const given = { ...environmentOfUsers(), GRAINLOT_DATA_DIR: folder, DEMO_SIGN_INS_FILE: signInsFile };
  const env = serverEnv(given, settings, appUrl, secrets);
  await ensureBuilt(root, sourceHash, { ...env }, console.log);
  await loadDemo(root, signInsFile, env);
  await startServer(guard, { root, host, port, origin, env, logFile: join(folder, "server.log") });
  return { origin, signIns: readSignIns(signInsFile) };
}

/** This process's environment without what the test runner put into it. */
function environmentOfUsers(): NodeJS.ProcessEnv {
  const kept = Object.entries(process.env).filter(
    ([name]) => !/^(VITEST|NODE_ENV$|NEXTAUTH_|GRAINLOT_|TEST$|MODE$|PROD$|DEV$|BASE_URL$)/.test(name),
  );
  return Object.fromEntries(kept) as NodeJS.ProcessEnv;
}
