import { PrismaPg } from "@prisma/adapter-pg";
import { env } from "@/lib/env";
import { Prisma, PrismaClient } from "./generated/client";

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

/** How often work is done that PostgreSQL ends because it and others wait for each other. */
const TRIES = 3;

/**
 * Runs `work` in one transaction: all of it is kept, or, when it throws, nothing. Hundreds who ask for a seat at once
 * queue at their trial's row, so a turn may be long in coming. Work that waits in a circle with others' and is ended for
 * it is done again from its beginning (PostgreSQL's manual, 13.3.4 Deadlocks), so whatever it does outside of the
 * database must bear being done twice.
 */
export async function transaction<T>(work: (tx: Transaction) => Promise<T>): Promise<T> {
  for (let tried = 1; ; tried++) {
    try {
      return await database().$transaction(work, { maxWait: 15_000, timeout: 15_000 });
    } catch (fault) {
      if (tried === TRIES || !isDeadlock(fault)) throw fault;
    }
  }
}

function isDeadlock(fault: unknown): boolean {
  if (!(fault instanceof Prisma.PrismaClientKnownRequestError)) return false;
  const { cause } = (fault.meta?.driverAdapterError ?? {}) as { cause?: { originalCode?: string } };
  return cause?.originalCode === "40P01";
}

/** Thrown inside a transaction to undo it and still answer with a typed refusal. */
export class RolledBack extends Error {
  constructor(readonly reason: string) {
    super(reason);
  }
}
