import { ensureAppRole } from "@/lib/launch/app-role.mjs";
import { withClient } from "@/lib/launch/client.mjs";
import { asDatabase } from "@/lib/launch/database-url.mjs";
import { migrate } from "@/lib/launch/migrate.mjs";
import { migrationsOf } from "@/lib/launch/serve.mjs";
import { root } from "./root";

export const templateName = "grainlot_template";

/** Connection strings to one database: as its owner, and as the role that owns nothing. */
export type DatabaseUrls = { readonly ownerUrl: string; readonly appUrl: string };

/** Makes a database with every migration applied and the server's role ready to log in. */
export async function createMigratedDatabase(serverUrl: string, name: string): Promise<DatabaseUrls> {
  await withClient(serverUrl, (client) => client.query(`CREATE DATABASE ${name}`));
  const ownerUrl = asDatabase(serverUrl, name);
  await migrate({ connectionString: ownerUrl, directory: migrationsOf(root) });
  return { ownerUrl, appUrl: await ensureAppRole(ownerUrl, undefined) };
}
