import { randomBytes } from "node:crypto";
import { inject } from "vitest";
import { withClient } from "@/lib/launch/client.mjs";
import { asDatabase } from "@/lib/launch/database-url.mjs";
import { type DatabaseUrls, templateName } from "./template";

/** A database of a test file's own, on the real server of this run. */
export type FreshDatabase = DatabaseUrls & { drop(): Promise<void> };

const takenByAnother = "55006";

/**
 * @param options migrated false: without any table
 * @returns connections to a new database: every migration applied, no rows beyond theirs
 */
export async function freshDatabase({ migrated = true } = {}): Promise<FreshDatabase> {
  const serverUrl = inject("serverUrl");
  const template = inject("template");
  const name = `test_${randomBytes(6).toString("hex")}`;
  await create(serverUrl, `CREATE DATABASE ${name}${migrated ? ` TEMPLATE ${templateName}` : ""}`);
  return {
    ownerUrl: asDatabase(template.ownerUrl, name),
    appUrl: asDatabase(template.appUrl, name),
    drop: () =>
      withClient(
        serverUrl,
        async (client) => void (await client.query(`DROP DATABASE ${name} WITH (FORCE)`)),
      ),
  };
}

/** Two files that copy the template at the same moment may meet; the later one tries again. */
async function create(serverUrl: string, sql: string): Promise<void> {
  for (let attempt = 0; ; attempt++) {
    try {
      await withClient(serverUrl, (client) => client.query(sql));
      return;
    } catch (error) {
      if ((error as { code?: string }).code !== takenByAnother || attempt > 50) throw error;
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  }
}
