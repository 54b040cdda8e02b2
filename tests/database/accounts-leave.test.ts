import { v7 } from "uuid";
import { beforeAll, describe, expect, it } from "vitest";
import { actorOfClaims } from "@/lib/auth/session";
import { leave } from "@/lib/services/accounts/leave";
import { ownDataDocument } from "@/lib/services/accounts/own-data";
import { recordBoxEvent } from "@/lib/services/growing/box-events";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { recordGrade } from "@/lib/services/growing/grades";
import { joinTrial } from "@/lib/services/growing/join";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { registerSite } from "@/lib/services/growing/sites";
import { type Member, newMember, PASSWORD } from "./accounts-fixture";
import {
  coastSite,
  enrolment,
  grade,
  newOpenTrial,
  type OpenTrial,
  ownGrounds,
  plan,
  run,
} from "./growing-fixture";

const grounds = ownGrounds();
let trial: OpenTrial;
beforeAll(async () => {
  trial = await newOpenTrial(grounds.db);
});

interface Season {
  readonly outingId: string;
  readonly siteName: string;
  readonly note: string;
}

/** Joins, draws two boxes, notes something and records both: what a season leaves behind. */
async function season(member: Member): Promise<Season> {
  const { db } = grounds;
  const { actor } = member;
  const site = { ...coastSite(), name: `Wood of ${actor.name}` };
  const set = plan(trial, site.id, 2);
  const note = `${actor.name} saw a badger.`;
  const occurredAt = new Date(Date.now() - 3_600_000).toISOString();
  const event = { id: v7(), kind: "animal" as const, occurredAt, withdrawsId: null, note };
  const [first, second] = set.boxes;
  for (const step of [
    await run(db, (tx) => joinTrial(tx, actor, enrolment(trial))),
    await run(db, (tx) => registerSite(tx, actor, site)),
    await run(db, (tx) => planOuting(tx, actor, set)),
    await run(db, (tx) => drawOuting(tx, actor, { id: v7(), outingId: set.id })),
    await run(db, (tx) => recordBoxEvent(tx, actor, { ...event, boxId: first!.id })),
    await run(db, (tx) => recordGrade(tx, actor, grade(first!.id, 70))),
    await run(db, (tx) => recordGrade(tx, actor, grade(second!.id, 20))),
  ]) {
    expect(step).toMatchObject({ ok: true });
  }
  const { accountId } = actor;
  const id = v7();
  await db.receipt.create({
    data: { id, accountId, route: "sites", contentSha256: "0".repeat(64), status: 201, answer: { site } },
  });
  await db.mail.create({
    data: { id, accountId, toAddress: member.email, kind: "reset", subject: "Hello", body: actor.name },
  });
  return { outingId: set.id, siteName: site.name, note };
}

/** Every row of every table, as one text. */
async function wholeDatabase(): Promise<string> {
  const tables = await grounds.db.$queryRaw<{ name: string }[]>`
    SELECT table_name AS name FROM information_schema.tables
    WHERE table_schema = 'public' AND table_name <> '_prisma_migrations' AND table_type = 'BASE TABLE'`;
  expect(tables.length).toBeGreaterThan(25);
  const texts: string[] = [];
  for (const { name } of tables) {
    const rows = await grounds.db.$queryRawUnsafe<{ row: string }[]>(
      `SELECT row_to_json(t)::text AS row FROM "${name}" t`,
    );
    texts.push(...rows.map(({ row }) => `${name} ${row}`));
  }
  return texts.join("\n");
}

/** What everyone's results rest on, of one set of boxes. */
async function lastingRows(outingId: string) {
  const { db } = grounds;
  const ofBoxes = { where: { box: { outingId } }, orderBy: { id: "asc" } } as const;
  return {
    outing: await db.outing.findUnique({ where: { id: outingId }, include: { boxes: true, draw: true } }),
    allocations: await db.allocation.findMany({
      where: { box: { outingId } },
      orderBy: { boxId: "asc" },
    }),
    events: await db.boxEvent.findMany(ofBoxes),
    grades: await db.grade.findMany(ofBoxes),
    ledger: await db.trial.findUnique({
      where: { id: trial.id },
      select: { drawCount: true, lastHash: true },
    }),
  };
}

describe("deleting one's account", () => {
  it("takes everything that says who and where, and leaves draws and records as they were", async () => {
    const { db } = grounds;
    const member = await newMember(db, "Ainhoaleaves");
    const { siteName, note, outingId } = await season(member);
    const traces = [member.email, "Ainhoaleaves", siteName, note, member.claims.accountId];
    const before = await wholeDatabase();
    for (const trace of traces) expect(before).toContain(trace);
    const lasting = await lastingRows(outingId);
    expect(lasting.grades).toHaveLength(2);

    expect(await run(db, (tx) => leave(tx, member.actor, PASSWORD))).toMatchObject({ ok: true });

    const after = await wholeDatabase();
    for (const trace of traces) expect(after).not.toContain(trace);
    expect(await lastingRows(outingId)).toEqual(lasting);
    expect(await actorOfClaims(db, member.claims)).toBeNull();
    const grower = await db.grower.findUniqueOrThrow({ where: { id: member.actor.growerId } });
    expect(grower.leftAt).not.toBeNull();
    const left = { growerId: member.actor.growerId, action: "account.left" };
    expect(await db.auditEntry.count({ where: left })).toBe(1);
  });

  it("leaves somebody else's things alone", async () => {
    const { db } = grounds;
    const [leaving, staying] = [await newMember(db, "Bealeaves"), await newMember(db, "Carlesstays")];
    await season(leaving);
    const { siteName, note } = await season(staying);
    await run(db, (tx) => leave(tx, leaving.actor, PASSWORD));
    const after = await wholeDatabase();
    for (const trace of [staying.email, siteName, note]) expect(after).toContain(trace);
  });

  it("needs the password, and the last admin stays", async () => {
    const { db } = grounds;
    const admin = await newMember(db, "Dolores", { isAdmin: true });
    expect(await run(db, (tx) => leave(tx, admin.actor, "a wrong guess entirely"))).toEqual({
      ok: false,
      reason: "WRONG_PASSWORD",
    });
    expect(await run(db, (tx) => leave(tx, admin.actor, PASSWORD))).toEqual({
      ok: false,
      reason: "LAST_ADMIN",
    });
    await newMember(db, "Eneko", { isAdmin: true });
    expect((await run(db, (tx) => leave(tx, admin.actor, PASSWORD))).ok).toBe(true);
  });
});

describe("taking one's data away", () => {
  it("holds all of one's own and nothing of anybody else's", async () => {
    const { db } = grounds;
    const [own, other] = [await newMember(db, "Fermin"), await newMember(db, "Galaelse")];
    const { outingId, siteName, note } = await season(own);
    const others = await season(other);
    const document = await ownDataDocument(db, own.actor, new Date());
    const text = JSON.stringify(document);
    for (const mine of [own.email, siteName, note, outingId]) expect(text).toContain(mine);
    for (const theirs of [other.email, "Galaelse", others.outingId, other.actor.growerId]) {
      expect(text).not.toContain(theirs);
    }
    expect(text).not.toContain("argon2");
    expect(document.grades).toHaveLength(2);
    expect(document.events).toHaveLength(1);
    expect(document.setsOfBoxes[0]?.boxes.every(({ allocation }) => allocation)).toBe(true);
    expect(document.places[0]?.place).toMatchObject({ name: siteName });
    expect(document.agreements).toHaveLength(1);
    expect(document.seats).toHaveLength(1);
  });
});
