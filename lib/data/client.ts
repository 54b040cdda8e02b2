import { PrismaPg } from "@prisma/adapter-pg";
import { env } from "@/lib/env";
import { type Prisma, PrismaClient } from "./generated/client";

export type Database = PrismaClient;
/** What reads and writes take, so that they run alone or inside a service's transaction. */
export type Transaction = Prisma.TransactionClient;

const kept = globalThis as { grainlotDatabase?: PrismaClient };

/** The one pool of connections of this process. */
export function database(): Database {
  kept.grainlotDatabase ??= openDatabase(env().DATABASE_URL);
  return kept.grainlotDatabase;
}

/** A client of its own, for tests and command-line programs; the caller disconnects it. */
export function openDatabase(connectionString: string): Database {
  return new PrismaClient({ adapter: new PrismaPg({ connectionString, max: 10 }) });
}

/**
 * Runs `work` in one transaction: all of it is kept, or, when it throws, nothing. Hundreds who ask for a seat at once
 * queue at their trial's row, so a turn may be long in coming.
 */
export function transaction<T>(work: (tx: Transaction) => Promise<T>): Promise<T> {
  return database().$transaction(work, { maxWait: 15_000, timeout: 15_000 });
}

/** Thrown inside a transaction to undo it and still answer with a typed refusal. */
export class RolledBack extends Error {
  constructor(readonly reason: string) {
    super(reason);
  }
}
