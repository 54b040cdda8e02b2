import { createHash } from "node:crypto";
import { Pool } from "pg";
import { RateLimiterPostgres, RateLimiterRes } from "rate-limiter-flexible";
import { env } from "@/lib/env";
import { log } from "@/lib/log";

/** Tries allowed per key within a time. Checked before any hashing, so that a refused try costs next to nothing. */
const LIMITS = {
  /** Per account and address asked from: somebody mistyping. */
  signIn: { points: 10, durationS: 15 * 60 },
  /** Per account, wherever from: somebody guessing from many addresses. */
  signInAccount: { points: 60, durationS: 60 * 60 },
  /** Per address asked from: somebody trying many accounts. A club's evening behind one address still fits. */
  signInFrom: { points: 100, durationS: 15 * 60 },
  signUpFrom: { points: 30, durationS: 60 * 60 },
  /** Household and trial codes that lead nowhere, per address asked from: somebody guessing. */
  wrongCode: { points: 20, durationS: 60 * 60 },
  /** Mails to one address. */
  mailTo: { points: 5, durationS: 60 * 60 },
  mailFrom: { points: 20, durationS: 60 * 60 },
  /** Using a link from a mail, per address asked from. */
  resetFrom: { points: 30, durationS: 60 * 60 },
  /** Asking for the password again of somebody signed in. */
  confirm: { points: 10, durationS: 15 * 60 },
  /** Pictures sent by one account: a whole season's at once, and no more. */
  pictures: { points: 200, durationS: 60 * 60 },
  /** Sets planned by one account: each takes one of its trial's 12,144 label codes for good. */
  plans: { points: 30, durationS: 60 * 60 },
} as const;

export type Limit = keyof typeof LIMITS;

interface Kept {
  readonly pool: Pool;
  readonly limiters: Map<Limit, RateLimiterPostgres>;
}

const kept = globalThis as { grainlotLimits?: Kept };

function openPool(): Pool {
  const pool = new Pool({ connectionString: env().DATABASE_URL, max: 2, allowExitOnIdle: true });
  // Without a listener, a database that restarts would take the server down with an idle connection.
  pool.on("error", (err) => log.warn({ err }, "the limits' connection to the database broke"));
  return pool;
}

function limiter(limit: Limit): RateLimiterPostgres {
  kept.grainlotLimits ??= { pool: openPool(), limiters: new Map() };
  const { pool, limiters } = kept.grainlotLimits;
  let found = limiters.get(limit);
  if (!found) {
    found = new RateLimiterPostgres({
      storeClient: pool,
      storeType: "pool",
      tableName: "rate_limit",
      tableCreated: true,
      keyPrefix: limit,
      points: LIMITS[limit].points,
      duration: LIMITS[limit].durationS,
    });
    limiters.set(limit, found);
  }
  return found;
}

/** Only a hash of an address or account is kept. */
function hashedKey(key: string): string {
  return createHash("sha256").update(key).digest("base64url");
}

/** Whether the key is still within its limit, without counting. For what counts only when it goes wrong. */
export async function hasTriesLeft(limit: Limit, key: string): Promise<boolean> {
  const counted = await limiter(limit).get(hashedKey(key));
  return counted === null || counted.consumedPoints < LIMITS[limit].points;
}

/** Counts one try for each of the keys; true while all are within their limit. */
export async function withinLimits(keys: Partial<Record<Limit, string>>): Promise<boolean> {
  for (const [limit, key] of Object.entries(keys) as [Limit, string][]) {
    try {
      await limiter(limit).consume(hashedKey(key));
    } catch (refused) {
      if (refused instanceof RateLimiterRes) return false;
      throw refused;
    }
  }
  return true;
}
