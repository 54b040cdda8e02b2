import type { Actor } from "@/lib/auth/actor";
import type { Transaction } from "@/lib/data/client";
import {
  type DemoTrialRows,
  insertDemoDraft,
  insertDemoGround,
  insertDemoPeople,
  insertDemoTrial,
} from "@/lib/data/demo";
import { keepPoolResult } from "@/lib/data/pool";
import { keepCut, takeCut, wantPool } from "@/lib/data/pool-state";
import { normaliseVariant, variantHash } from "@/lib/engine/grain/variant-identity";
import { seededSource } from "@/lib/engine/random/source";
import { poolColumns } from "@/lib/engine/statistics/pool-columns";
import { loadKoppenGrid } from "@/lib/reference/koppen-grid";
import { loadStations } from "@/lib/reference/normals";
import { readAndKeepTallies } from "@/lib/services/draw-tallies";
import { composeRelease, draftRelease, keepRelease } from "@/lib/services/lead/release";
import { poolBothWays } from "@/lib/services/pool-both-ways";
import { poolWork } from "@/lib/services/pooling";
import { methodsText } from "@/lib/ui/release/methods-text";
import { DEMO_REGIONS } from "@/prisma/seed/regions";
import { DEMO_GROUPING } from "@/prisma/seed/trials";
import { DEMO_VARIANTS } from "@/prisma/seed/variants";
import { daysAfter } from "./chance";
import { type DemoSeason, liveSeason, must } from "./journeys";
import { makePeople, type PasswordHashOf } from "./people";
import { closedTrial, draftedTrial, nextSeasonTrial, openTrial, releasedTrial } from "./trials";
import { DEMO_SEED } from "./truth";

/** The demo's people joined this long before it was loaded. */
const PEOPLE_SINCE_DAYS = 500;

const DAYS_TO_RELEASE = 12;

/**
 * Fills an empty database with the invented trials. Everything but the open trials' draws follows from the seed;
 * times are counted back from `now`.
 */
export async function loadDemo(
  tx: Transaction,
  now: Date,
  passwordHashOf: PasswordHashOf,
): Promise<DemoSeason> {
  const reference = { stations: await loadStations(), grid: await loadKoppenGrid() };
  const since = daysAfter(now, -PEOPLE_SINCE_DAYS);
  const people = makePeople(seededSource(`${DEMO_SEED}/people`), since, reference, passwordHashOf);
  await insertDemoPeople(tx, people.rows);
  const withRecipes = [people.lead, people.households[0]!.adults[0]!];
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
      withRecipes.map(({ accountId }) => ({ accountId, variantId: id, name })),
    ),
  });
  const trialOf = (make: typeof closedTrial, name: string) =>
    make(seededSource(`${DEMO_SEED}/${name}`), people, now);
  const released = trialOf(releasedTrial, "released");
  await keepTrial(tx, released);
  await poolInPlace(tx, released.trial.id);
  await releaseInPlace(tx, people.lead, released);
  const closed = trialOf(closedTrial, "closed");
  await keepTrial(tx, closed);
  await poolInPlace(tx, closed.trial.id);
  const season = trialOf(nextSeasonTrial, "next season");
  const open = trialOf(openTrial, "open");
  for (const trial of [season, open]) {
    await keepTrial(tx, trial);
    await wantPool(tx, trial.trial.id);
  }
  await insertDemoDraft(tx, draftedTrial(seededSource(`${DEMO_SEED}/draft`), people, now));
  await liveSeason(tx, seededSource(`${DEMO_SEED}/journeys`), { people, season }, now);
  return { people, season };
}

async function keepTrial(tx: Transaction, rows: DemoTrialRows): Promise<void> {
  await insertDemoTrial(tx, rows);
  await keepCounts(tx, rows);
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

/** The final results of a closed trial, as its lead releases them some days after. */
async function releaseInPlace(tx: Transaction, lead: Actor, { trial, closed }: DemoTrialRows): Promise<void> {
  const draft = must(await draftRelease(tx, lead, trial.id));
  const releasedAt = daysAfter(closed!.at, DAYS_TO_RELEASE);
  const { table, extras, options } = draft.work;
  const { result } = poolColumns(table, extras, options);
  must(await keepRelease(tx, lead, composeRelease(draft, result, methodsText, releasedAt), releasedAt));
}
