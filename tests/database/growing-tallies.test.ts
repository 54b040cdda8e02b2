import { v7 } from "uuid";
import { expect, it } from "vitest";
import type { Actor } from "@/lib/auth/actor";
import { ledgerOf } from "@/lib/data/draws";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { giveUpOuting } from "@/lib/services/growing/plan-outing";
import type { AuthorizedTrialId } from "@/lib/services/lead/authorise";
import { runningDesign } from "@/lib/services/lead/design";
import { designSoFar } from "@/lib/services/lead/design-so-far";
import { DEFAULT_PLAN_CHOICES } from "@/lib/services/lead/plan";
import type { OutingInput } from "@/shared/schemas/outing";
import {
  joinedGrower,
  ledgerVerdict,
  newGrower,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  plannedOuting,
  run,
} from "./growing-fixture";

const grounds = ownGrounds();

interface PlannedSet {
  readonly grower: Actor;
  readonly outingId: string;
}

async function plannedSets(
  trial: OpenTrial,
  growers: number,
  sizes: readonly number[],
): Promise<PlannedSet[]> {
  const { db } = grounds;
  const sets: PlannedSet[] = [];
  for (let at = 0; at < growers; at++) {
    const who = await joinedGrower(db, trial);
    const fewer: Partial<OutingInput> = at % 3 ? {} : { grainsAtHand: ["spelt", "white-rice-long"] };
    for (const boxes of sizes) {
      const { id: outingId } = await plannedOuting(db, trial, who, boxes, fewer);
      sets.push({ grower: who.grower, outingId });
    }
  }
  return sets;
}

const draw = ({ grower, outingId }: PlannedSet) =>
  run(grounds.db, (tx) => drawOuting(tx, grower, { id: v7(), outingId }));

const verdict = (trial: OpenTrial) => ledgerVerdict(grounds.db, trial);

/** How often two recipes met in sets of so many boxes, by plain SQL over the allocations; returns left out. */
function concurrences(trial: OpenTrial) {
  return grounds.db.$queryRaw<{ size: string; first: number; second: number; sum: number }[]>`
    WITH counted AS (
      SELECT draw.id, arm.position, count(*) AS n, sum(count(*)) OVER (PARTITION BY draw.id) AS size
      FROM draw JOIN allocation ON allocation.draw_id = draw.id JOIN arm ON arm.id = allocation.arm_id
      WHERE draw.trial_id = ${trial.id}::uuid AND NOT draw.inputs ? 'returns'
      GROUP BY draw.id, arm.position)
    SELECT a.size::text, a.position AS first, b.position AS second, sum(a.n * b.n)::int AS sum
    FROM counted a JOIN counted b ON b.id = a.id AND b.position >= a.position GROUP BY 1, 2, 3`;
}

async function expectTalliesToFollow(trial: OpenTrial): Promise<void> {
  const design = await grounds.db.$transaction((tx) =>
    designSoFar(tx, trial.id as AuthorizedTrialId, new Date()),
  );
  const { tally } = design!.groups.find(({ band }) => band === "mild-wet")!;
  const told = new Map<string, number>();
  for (const [size, sums] of Object.entries(tally.blocks)) {
    let at = 0;
    for (let first = 1; first <= 6; first++) {
      for (let second = first; second <= 6; second++) {
        const sum = sums[at++]!;
        if (sum > 0) told.set(`${size} ${first} ${second}`, sum);
      }
    }
  }
  const counted = await concurrences(trial);
  expect(told).toEqual(
    new Map(counted.map(({ size, first, second, sum }) => [`${size} ${first} ${second}`, sum])),
  );
}

it("fifty draws of one trial at once come one after the other, make a ledger that can be replayed, and are counted", async () => {
  const { db } = grounds;
  const trial = await newOpenTrial(db, 20, { ...DEFAULT_PLAN_CHOICES, meetAgainShare: 0.5 });
  const sets = [...(await plannedSets(trial, 10, [4, 3, 6, 2])), ...(await plannedSets(trial, 5, [5, 4]))];
  const answers = await Promise.all(sets.map(draw));
  expect(answers.filter(({ ok }) => ok)).toHaveLength(50);
  expect(await verdict(trial)).toMatchObject({ ok: true, replayed: true, head: { draws: 50 } });
  await expectTalliesToFollow(trial);
});

it("counts that are missing are made from the ledger, returns left out, and the ledger goes on", async () => {
  const { db } = grounds;
  const trial = await newOpenTrial(db);
  const [first, second, third, fourth] = (await plannedSets(trial, 1, [4, 3, 6, 3])) as [
    PlannedSet,
    PlannedSet,
    PlannedSet,
    PlannedSet,
  ];
  expect(await draw(first)).toMatchObject({ ok: true });
  const request = { id: v7(), outingId: first.outingId, reason: "weather", note: null } as const;
  expect(await run(db, (tx) => giveUpOuting(tx, first.grower, request))).toMatchObject({ ok: true });
  expect(await draw(second)).toMatchObject({ ok: true });
  expect((await ledgerOf(db, trial.id))[1]!.inputs.returns).toBeDefined();
  expect(await draw(third)).toMatchObject({ ok: true });
  await db.drawTally.deleteMany({ where: { trialId: trial.id, band: "mild-wet" } });
  await expectTalliesToFollow(trial);
  expect(await draw(fourth)).toMatchObject({ ok: true });
  expect(await db.drawTally.count({ where: { trialId: trial.id } })).toBe(2);
  await expectTalliesToFollow(trial);
  expect(await verdict(trial)).toMatchObject({ ok: true, replayed: true });
});

it("keeps counts by recipe from the lead while they would tell one household's allocation", async () => {
  const { db } = grounds;
  const trial = await newOpenTrial(db);
  const lead = await newGrower(db, "Lead");
  await db.trialLead.create({ data: { trialId: trial.id, accountId: lead.accountId } });
  const seen = async () => {
    const found = await db.$transaction((tx) => runningDesign(tx, lead, trial.id, new Date()));
    if (!found.ok) throw new Error(found.reason);
    return found.value!.groups.find(({ group }) => group === "mild-wet")!;
  };
  for (const [set] of [await plannedSets(trial, 1, [3]), await plannedSets(trial, 1, [3])]) {
    expect(await draw(set!)).toMatchObject({ ok: true });
    expect(await seen()).toMatchObject({ replication: [], thinArms: [] });
  }
  expect(await seen()).toMatchObject({ sets: 2, boxes: 6 });
  const [third] = await plannedSets(trial, 1, [3]);
  expect(await draw(third!)).toMatchObject({ ok: true });
  expect((await seen()).replication.reduce((sum, boxes) => sum + boxes, 0)).toBe(9);
});

it("says how the design has come out in each group, without any growth", async () => {
  const { db } = grounds;
  const trial = await newOpenTrial(db);
  for (const set of await plannedSets(trial, 2, [4, 3])) expect(await draw(set)).toMatchObject({ ok: true });
  const design = (await db.$transaction((tx) => designSoFar(tx, trial.id as AuthorizedTrialId, new Date())))!;
  expect(design.groups.map(({ band }) => band)).toEqual(["mild-wet", "dry-summer"]);
  const [wet, dry] = design.groups as [(typeof design.groups)[number], (typeof design.groups)[number]];
  expect(wet).toMatchObject({ households: 2, sets: 4, boxes: 14, recorded: 0, tally: { draws: 4 } });
  expect(dry).toMatchObject({ households: 0, sets: 0, boxes: 0, boxesByArm: [0, 0, 0, 0, 0, 0] });
  const counts = await db.allocation.groupBy({
    by: ["armId"],
    where: { draw: { trialId: trial.id } },
    _count: true,
  });
  const arms = await db.arm.findMany({ where: { trialId: trial.id }, orderBy: { position: "asc" } });
  const byArm = arms.map(({ id }) => counts.find(({ armId }) => armId === id)?._count ?? 0);
  expect(wet.boxesByArm).toEqual(byArm);
  expect(JSON.stringify(design)).not.toMatch(/take|growth|mean/);
});
