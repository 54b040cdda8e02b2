import PgBoss from "pg-boss";
import { database } from "@/lib/data/client";
import { dropCutOffRuns, trialsWaitingForPool } from "@/lib/data/pool-state";
import { env } from "@/lib/env";
import { log } from "@/lib/log";
import { type Pool, poolTrialNow } from "@/lib/services/pooling";
import { POOL_TIMEOUT_S, poolInProcess } from "./pool-process";

/** Made by a migration, policy "stately": per trial at most one run waits and one works. */
const QUEUE = "pool";
/** A burst of grades makes one run. */
const DEBOUNCE_S = 2;
/** Whoever saves needs to send nothing: wishes are looked up and sent this often, after a crash too. */
const SWEEP_EVERY_MS = 5_000;

interface Jobs {
  readonly boss: PgBoss;
  readonly sweep: NodeJS.Timeout;
}

// Pages and the start-up hook are bundled apart and must meet in one queue.
const kept = globalThis as { grainlotJobs?: Promise<Jobs> };

/**
 * Starts the queue and its one worker in this process; further calls do nothing.
 * @param pool how boxes become a result; a process of its own unless said otherwise
 */
export async function startJobs(pool: Pool = poolInProcess): Promise<void> {
  kept.grainlotJobs ??= start(pool);
  await kept.grainlotJobs;
}

/** Lets a run under way end, then stops. */
export async function stopJobs(): Promise<void> {
  if (!kept.grainlotJobs) return;
  const { boss, sweep } = await kept.grainlotJobs;
  kept.grainlotJobs = undefined;
  clearInterval(sweep);
  await boss.stop({ graceful: true, timeout: 10_000 });
}

/**
 * Sends a trial to be pooled soon, once the transaction with `wantPool` has ended. While one run waits nothing is
 * added; while one works a further one waits. A wish that can't be sent now is sent by a later sweep, so that what
 * was saved never depends on the queue.
 */
export async function enqueuePool(trialId: string): Promise<void> {
  try {
    const jobs = await kept.grainlotJobs;
    await jobs?.boss.send(QUEUE, { trialId }, { singletonKey: trialId, startAfter: DEBOUNCE_S });
  } catch (fault) {
    log.error({ err: fault, trialId }, "a pool could not be enqueued; the next sweep will");
  }
}

async function start(pool: Pool): Promise<Jobs> {
  const boss = new PgBoss({
    connectionString: env().DATABASE_URL,
    max: 3,
    migrate: false,
    schedule: false,
    // A run cut off by a crash counts as failed after this, and its trial may be pooled again.
    expireInSeconds: POOL_TIMEOUT_S + 30,
  });
  boss.on("error", (fault) => log.error({ err: fault }, "job queue"));
  await boss.start();
  await dropCutOffRuns(database(), QUEUE);
  await boss.work<{ trialId: string }>(QUEUE, { batchSize: 1, pollingIntervalSeconds: 1 }, async ([job]) => {
    const { trialId } = job!.data;
    const started = performance.now();
    await poolTrialNow(trialId, pool);
    log.info({ trialId, ms: Math.round(performance.now() - started) }, "pooled");
  });
  const sweep = setInterval(() => void sendWaiting(), SWEEP_EVERY_MS);
  sweep.unref();
  setImmediate(() => void sendWaiting());
  return { boss, sweep };
}

async function sendWaiting(): Promise<void> {
  try {
    for (const trialId of await trialsWaitingForPool(database())) await enqueuePool(trialId);
  } catch (fault) {
    log.error({ err: fault }, "waiting pools could not be looked up");
  }
}
