import type { Transaction } from "./client";

export interface DatabaseState {
  /** Name of the newest migration that was applied in full; null in a database nobody migrated. */
  readonly lastMigration: string | null;
  /** Migrations begun and neither finished nor rolled back. */
  readonly unfinishedMigrations: number;
  readonly trials: number;
  readonly boxes: number;
  readonly grades: number;
  /** Trials with a wish for a newer result that no cut has answered. */
  readonly poolsWaiting: number;
  /** How long the oldest of them has waited; 0 where none waits. */
  readonly poolLagSeconds: number;
}

/** How far the database has come and what it holds; trials still in draft are not counted. */
export async function readDatabaseState(tx: Transaction): Promise<DatabaseState> {
  const [known] = await tx.$queryRaw<{ migrated: boolean }[]>`
    SELECT to_regclass('_prisma_migrations') IS NOT NULL AND to_regclass('pool_state') IS NOT NULL AS migrated`;
  if (!known?.migrated) return NOT_MIGRATED;
  const [state] = await tx.$queryRaw<DatabaseState[]>`
    SELECT
      (SELECT max(migration_name) FROM _prisma_migrations
        WHERE finished_at IS NOT NULL AND rolled_back_at IS NULL) AS "lastMigration",
      (SELECT count(*)::int FROM _prisma_migrations
        WHERE finished_at IS NULL AND rolled_back_at IS NULL) AS "unfinishedMigrations",
      (SELECT count(*)::int FROM trial WHERE status <> 'draft') AS trials,
      (SELECT count(*)::int FROM box) AS boxes,
      (SELECT count(*)::int FROM grade) AS grades,
      count(*)::int AS "poolsWaiting",
      coalesce(extract(epoch FROM clock_timestamp() - min(wanted_at)), 0)::float8 AS "poolLagSeconds"
    FROM pool_state WHERE cut_at IS NULL OR wanted_at >= cut_at`;
  return state!;
}

const NOT_MIGRATED: DatabaseState = {
  lastMigration: null,
  unfinishedMigrations: 0,
  trials: 0,
  boxes: 0,
  grades: 0,
  poolsWaiting: 0,
  poolLagSeconds: 0,
};

export interface MachineRoom {
  readonly postgresVersion: string;
  /** Runs of the pool that are queued, and that work right now. */
  readonly runsQueued: number;
  readonly runsWorking: number;
  readonly lastPooledAt: Date | null;
  readonly pictures: number;
  readonly picturesBytes: number;
}

/** What only those who run the server need to know; for a database that is migrated. */
export async function readMachineRoom(tx: Transaction): Promise<MachineRoom> {
  const [room] = await tx.$queryRaw<MachineRoom[]>`
    SELECT current_setting('server_version') AS "postgresVersion",
      (SELECT count(*)::int FROM pgboss.job WHERE name = 'pool' AND state IN ('created', 'retry')) AS "runsQueued",
      (SELECT count(*)::int FROM pgboss.job WHERE name = 'pool' AND state = 'active') AS "runsWorking",
      (SELECT max(computed_at) FROM pool_result) AS "lastPooledAt",
      count(*)::int AS pictures, coalesce(sum(bytes), 0)::float8 AS "picturesBytes"
    FROM photo`;
  return room!;
}
