import { type Database, database } from "@/lib/data/client";
import { type DatabaseState, readDatabaseState } from "@/lib/data/health";
import { log } from "@/lib/log";
import packageJson from "@/package.json";

export interface Health {
  /** Whether the server can do its work: the database answers and is migrated. */
  readonly ready: boolean;
  readonly version: string;
  /** Null where the database doesn't answer. */
  readonly database: DatabaseState | null;
}

const ANSWER_WITHIN_MS = 5_000;

/** Never throws and never waits longer than about five seconds: whoever watches the server needs an answer. */
export async function readHealth(open: () => Database = database): Promise<Health> {
  const { version } = packageJson;
  try {
    const state = await withinTime(readDatabaseState(open()));
    return {
      ready: state.lastMigration !== null && state.unfinishedMigrations === 0,
      version,
      database: state,
    };
  } catch (fault) {
    log.error({ err: fault }, "the database does not answer");
    return { ready: false, version, database: null };
  }
}

async function withinTime<T>(work: Promise<T>): Promise<T> {
  let timer: NodeJS.Timeout | undefined;
  const tooLate = new Promise<never>((_, reject) => {
    timer = setTimeout(() => reject(new Error(`no answer within ${ANSWER_WITHIN_MS} ms`)), ANSWER_WITHIN_MS);
  });
  try {
    return await Promise.race([work, tooLate]);
  } finally {
    clearTimeout(timer);
  }
}
