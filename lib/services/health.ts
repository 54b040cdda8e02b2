import { statfs } from "node:fs/promises";
import type { Actor } from "@/lib/auth/actor";
import { type Database, database, type Transaction } from "@/lib/data/client";
import { type DatabaseState, type MachineRoom, readDatabaseState, readMachineRoom } from "@/lib/data/health";
import { type OutboxState, outboxState } from "@/lib/data/mails";
import { env } from "@/lib/env";
import { log } from "@/lib/log";
import { mayAdminister } from "@/lib/services/accounts/admin";
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

/** What an admin sees beside: never a secret, and no address of a server. */
export interface AdminHealth extends MachineRoom {
  readonly nodeVersion: string;
  readonly mail: OutboxState & { readonly isServerNamed: boolean };
  /** On the disk that keeps the pictures; null where it can't be read. */
  readonly freeBytes: number | null;
}

/** Null for everybody but an admin, and in a database that isn't ready. */
export async function adminHealth(
  tx: Transaction,
  actor: Actor | null,
  { ready }: Health,
): Promise<AdminHealth | null> {
  if (!ready || !actor || !(await mayAdminister(tx, actor))) return null;
  const disk = await statfs(env().GRAINLOT_DATA_DIR).catch(() => null);
  return {
    ...(await readMachineRoom(tx)),
    nodeVersion: process.versions.node,
    mail: { ...(await outboxState(tx)), isServerNamed: env().SMTP_URL !== undefined },
    freeBytes: disk && disk.bavail * disk.bsize,
  };
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
