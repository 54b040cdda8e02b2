import { withClient } from "@/lib/launch/client.mjs";
import { openThrowawayDatabase } from "@/lib/launch/database.mjs";
import { type Guard, startGuard } from "@/lib/launch/guard.mjs";
import { root } from "./root";

/** An empty PostgreSQL for one test run. */
export type DatabaseServer = {
  /** The superuser's connection to the maintenance database. */
  readonly url: string;
  stop(): Promise<void>;
};

const image = "postgres:18-alpine";
const pullWithinMs = 180_000;

/**
 * A container when an engine answers and has or can get the image, the embedded server in a temporary folder
 * otherwise. Prints which.
 */
export async function startDatabaseServer(): Promise<DatabaseServer> {
  const container = await startContainer();
  const server = container.ok ? container.server : await startEmbeddedServer();
  const version = await withClient(
    server.url,
    async (client) => (await client.query("SHOW server_version")).rows[0],
  );
  console.log(
    `Database: PostgreSQL ${version.server_version}, ${container.ok ? `container ${image}` : `embedded (${container.why})`}`,
  );
  return server;
}

async function startContainer(): Promise<{ ok: true; server: DatabaseServer } | { ok: false; why: string }> {
  const { getContainerRuntimeClient } = await import("testcontainers");
  try {
    await getContainerRuntimeClient();
  } catch {
    return { ok: false, why: "no container engine answers" };
  }
  try {
    const { PostgreSqlContainer } = await import("@testcontainers/postgresql");
    const settings = ["fsync=off", "synchronous_commit=off", "full_page_writes=off", "max_connections=200"];
    const starting = new PostgreSqlContainer(image)
      .withCommand(["postgres", ...settings.flatMap((setting) => ["-c", setting])])
      .start();
    const started = await withinTime(starting, pullWithinMs);
    const stop = async () => void (await started.stop());
    return { ok: true, server: { url: started.getConnectionUri(), stop } };
  } catch (error) {
    const reason = error instanceof Error ? error.message.split("\n")[0] : String(error);
    return { ok: false, why: `the container engine has no ${image}: ${reason}` };
  }
}

async function withinTime<T>(work: Promise<T>, limitMs: number): Promise<T> {
  work.catch(() => {});
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`not there within ${limitMs / 1000} s`)), limitMs);
  });
  return Promise.race([work, late]).finally(() => clearTimeout(timer));
}

async function startEmbeddedServer(): Promise<DatabaseServer> {
  const guard: Guard = startGuard();
  try {
    return { url: await openThrowawayDatabase(guard, root), stop: guard.close };
  } catch (error) {
    await guard.close();
    throw error;
  }
}
