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
  /** Household and trial codes, per account or address. */
  code: { points: 20, durationS: 60 * 60 },
  /** Mails to one address. */
  mailTo: { points: 5, durationS: 60 * 60 },
  mailFrom: { points: 20, durationS: 60 * 60 },
  /** Using a link from a mail, per address asked from. */
  resetFrom: { points: 30, durationS: 60 * 60 },
  /** Asking for the password again of somebody signed in. */
  confirm: { points: 10, durationS: 15 * 60 },
} as const;

export type Limit = keyof typeof LIMITS;

interface Kept {
  readonly pool: Pool;
  readonly limiters: Map<Limit, RateLimiterPostgres>;
}

const kept = globalThis as { grainlotLimits?: Kept };

function openPool(): Pool {
  const pool = new Pool({ connectionString: env().DATABASE_URL, max: 2, allowExitOnIdle: true });
  // Without a listener, a database that restarts would take the server down with an idle connection. The error
  // itself carries the connection and its password: only its words are logged.
  pool.on("error", ({ message }) => log.warn({ reason: message }, "the limits' database connection broke"));
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
