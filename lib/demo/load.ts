import type { Transaction } from "@/lib/data/client";
import { type DemoTrialRows, insertDemoGround, insertDemoPeople, insertDemoTrial } from "@/lib/data/demo";
import { keepPoolResult } from "@/lib/data/pool";
import { keepCut, takeCut, wantPool } from "@/lib/data/pool-state";
import { normaliseVariant, variantHash } from "@/lib/engine/grain/variant-identity";
import { seededSource } from "@/lib/engine/random/source";
import { loadKoppenGrid } from "@/lib/reference/koppen-grid";
import { loadStations } from "@/lib/reference/normals";
import { readAndKeepTallies } from "@/lib/services/draw-tallies";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import { poolWork } from "@/lib/services/pooling";
import { DEMO_REGIONS } from "@/prisma/seed/regions";
import { DEMO_GROUPING } from "@/prisma/seed/trials";
import { DEMO_VARIANTS } from "@/prisma/seed/variants";
import { daysAfter } from "./chance";
import { type DemoSignIn, makePeople } from "./people";
import { closedTrial, openTrial } from "./trials";
import { DEMO_SEED } from "./truth";

export interface DemoSignIns {
  readonly grower: DemoSignIn;
  readonly lead: DemoSignIn;
  readonly admin: DemoSignIn;
}

/** The demo's people joined this long before it was loaded. */
const PEOPLE_SINCE_DAYS = 270;

/**
 * Fills an empty database with the invented trials. Everything but the open trial's draws follows from the seed;
 * times are counted back from `now`.
 */
export async function loadDemo(
  tx: Transaction,
  now: Date,
  signIns: DemoSignIns,
  unknownPasswordHash: string,
): Promise<void> {
  const reference = { stations: await loadStations(), grid: await loadKoppenGrid() };
  const since = daysAfter(now, -PEOPLE_SINCE_DAYS);
  const people = makePeople(
    seededSource(`${DEMO_SEED}/people`),
    since,
    reference,
    signIns,
    unknownPasswordHash,
  );
  await insertDemoPeople(tx, people.rows);
  await insertDemoGround(tx, {
    regions: [...DEMO_REGIONS],
    variants: DEMO_VARIANTS.map(({ id, content }) => ({
      id,
      contentHash: variantHash(content),
      grain: content.grain,
      content: normaliseVariant(content),
      createdAt: since,
    })),
    shelf: DEMO_VARIANTS.flatMap(({ id, name }) =>
      [people.leadAccountId, people.growerAccountId].map((accountId) => ({ accountId, variantId: id, name })),
    ),
  });
  const closed = closedTrial(seededSource(`${DEMO_SEED}/closed`), people, now);
  await insertDemoTrial(tx, closed);
  await keepCounts(tx, closed);
  await poolInPlace(tx, closed.trial.id);
  const open = openTrial(seededSource(`${DEMO_SEED}/open`), people, now);
  await insertDemoTrial(tx, open);
  await keepCounts(tx, open);
  await wantPool(tx, open.trial.id);
}

/** Counts the draws once, so that the first draw of a visitor finds them counted. */
async function keepCounts(tx: Transaction, { trial, arms }: DemoTrialRows): Promise<void> {
  const armCodes = arms.map(({ code }) => code);
  await readAndKeepTallies(tx, { trialId: trial.id, armCodes, bands: DEMO_GROUPING.map(({ code }) => code) });
}

async function poolInPlace(tx: Transaction, trialId: string): Promise<void> {
  await wantPool(tx, trialId);
  const at = await takeCut(tx, trialId);
  const { work, shown } = await poolWork(tx, trialId, at!);
  const pooled = poolBothWays(work);
  await keepPoolResult(tx, trialId, { ...pooled, boxes: work.table.columns.n, shown });
  await keepCut(tx, trialId, { at: at!, sha256: pooled.cut });
}
