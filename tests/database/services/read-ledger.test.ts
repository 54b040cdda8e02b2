import { beforeAll, describe, expect, inject, it } from "vitest";
import { loadDemo } from "@/lib/demo/load";
import { readLedgerFile } from "@/lib/engine/design/read-ledger-file";
import { verifyLedgerFile } from "@/lib/engine/design/verify-ledger";
import { withClient } from "@/lib/launch/client.mjs";
import { asDatabase } from "@/lib/launch/database-url.mjs";
import { ledgerText, readReceipt } from "@/lib/services/read-ledger";
import { readTrial, type TrialView } from "@/lib/services/read-trials";
import { DEMO_CLOSED_TRIAL, DEMO_OPEN_TRIAL } from "@/prisma/seed/trials";
import type { LedgerFile } from "@/shared/schemas/ledger-file";
import { closeTrial, newOpenTrial, ownGrounds } from "../growing-fixture";

const grounds = ownGrounds();
let closed: TrialView;
let open: TrialView;
beforeAll(async () => {
  const now = new Date("2026-11-25T12:00:00Z");
  await grounds.db.$transaction((tx) => loadDemo(tx, now, () => "none"), { timeout: 180_000 });
  closed = (await readTrial(DEMO_CLOSED_TRIAL.slug, grounds.db))!;
  open = (await readTrial(DEMO_OPEN_TRIAL.slug, grounds.db))!;
});

async function textOf(trial: TrialView): Promise<string> {
  const ledger = ledgerText(trial, grounds.db);
  if (!ledger.ok) throw new Error(ledger.reason);
  let text = "";
  for await (const piece of ledger.pieces) text += piece;
  return text;
}

async function ledgerOf(trial: TrialView): Promise<LedgerFile> {
  const read = readLedgerFile(await textOf(trial));
  if (!read.ok) throw new Error(`${read.reason} at ${read.at}`);
  return read.ledger;
}

/** As the database's owner, with the triggers that forbid it switched off. */
async function behindItsBack(sql: string, values: readonly string[]): Promise<void> {
  const { pathname } = new URL(process.env.DATABASE_URL!);
  await withClient(asDatabase(inject("template").ownerUrl, pathname.slice(1)), async (client) => {
    await client.query("SET session_replication_role = replica");
    await client.query(sql, [...values]);
  });
}

describe("a trial's ledger as anyone may take it", () => {
  it("is closed while the trial is open", () => {
    expect(ledgerText(open, grounds.db)).toEqual({ ok: false, reason: "LEDGER_SEALED" });
  });

  it("holds every draw after the close and stands against the published head", async () => {
    const ledger = await ledgerOf(closed);
    expect(ledger.entries).toHaveLength(await grounds.db.draw.count({ where: { trialId: closed.id } }));
    const published = { seal: closed.seal, draws: closed.drawCount, lastHash: closed.lastHash };
    expect(verifyLedgerFile(ledger, published)).toEqual({
      ok: true,
      head: { draws: closed.drawCount, lastHash: closed.lastHash },
      replayed: true,
    });
  });

  it("is read page by page without losing or doubling a draw", async () => {
    // 1,203 links by plain SQL, more than two pages; only their order is looked at.
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    await closeTrial(db, trial);
    const view = (await readTrial((await db.trial.findUniqueOrThrow({ where: { id: trial.id } })).slug, db))!;
    const [template] = await db.draw.findMany({ where: { trialId: closed.id }, take: 1 });
    const outing = await db.outing.findFirstOrThrow({ where: { trialId: closed.id } });
    await db.$executeRaw`
      INSERT INTO outing SELECT (jsonb_populate_record(outing, jsonb_build_object('id', gen_random_uuid(),
          'trial_id', ${trial.id}::uuid, 'code', 'x' || n))).*
        FROM outing, generate_series(1, 1203) n WHERE id = ${outing.id}::uuid`;
    await db.$executeRaw`
      INSERT INTO draw SELECT (jsonb_populate_record(draw, jsonb_build_object('id', gen_random_uuid(),
          'trial_id', ${trial.id}::uuid, 'number', numbered.n, 'outing_id', numbered.id,
          'hash', encode(sha256(numbered.n::text::bytea), 'hex')))).*
        FROM draw, (SELECT id, row_number() OVER (ORDER BY random()) AS n FROM outing
          WHERE trial_id = ${trial.id}::uuid) numbered WHERE draw.id = ${template!.id}::uuid`;
    const { entries } = await ledgerOf(view);
    expect(entries.map(({ number }) => number)).toEqual(Array.from({ length: 1203 }, (_, i) => i + 1));
  });

  it("is a whole ledger where nothing was drawn", async () => {
    const { db } = grounds;
    const trial = await newOpenTrial(db);
    await closeTrial(db, trial);
    const { slug } = await db.trial.findUniqueOrThrow({ where: { id: trial.id } });
    const view = (await readTrial(slug, db))!;
    expect((await ledgerOf(view)).entries).toEqual([]);
  });

  it("carries pseudonyms only", async () => {
    const text = await textOf(closed);
    const { db } = grounds;
    const people = await db.account.findMany({ select: { email: true, id: true, growerId: true } });
    const seats = await db.enrolment.findMany({
      where: { trialId: closed.id },
      select: { id: true, householdId: true, pseudonym: true },
    });
    const outings = await db.outing.findMany({
      where: { trialId: closed.id },
      select: { id: true, siteId: true },
    });
    const own = [people, seats.map(({ id, householdId }) => ({ id, householdId })), outings];
    for (const secret of own.flat().flatMap((row) => Object.values(row))) expect(text).not.toContain(secret);
    expect(seats.some(({ pseudonym }) => text.includes(`"${pseudonym}"`))).toBe(true);
  });
});

describe("a receipt", () => {
  it("finds its draw by its short or its whole hash, before and after the close", async () => {
    for (const trial of [open, closed]) {
      const draws = await grounds.db.draw.findMany({
        where: { trialId: trial.id },
        orderBy: { number: "asc" },
      });
      for (const { number, hash, algorithm } of [draws[0]!, draws.at(-1)!]) {
        const expected = { ok: true, number, hash, algorithm, stands: true };
        const short = `${hash.slice(0, 8)}-${hash.slice(-8)}`;
        for (const typed of [short, ` ${short.toUpperCase()} `, short.replace("-", " "), hash]) {
          expect(await readReceipt(trial.id, typed, grounds.db)).toEqual(expected);
        }
      }
    }
  });

  it("is told from another trial's, a mistyped one and from no receipt at all", async () => {
    const { hash } = await grounds.db.draw.findFirstOrThrow({ where: { trialId: closed.id } });
    const short = `${hash.slice(0, 8)}-${hash.slice(-8)}`;
    const other = hash.endsWith("0") ? "1" : "0";
    const reasonOf = async (trialId: string, typed: string) => {
      const standing = await readReceipt(trialId, typed, grounds.db);
      return standing.ok ? null : standing.reason;
    };
    expect(await reasonOf(open.id, short)).toBe("NO_SUCH_DRAW");
    expect(await reasonOf(closed.id, short.slice(0, -1) + other)).toBe("NO_SUCH_DRAW");
    expect(await reasonOf(closed.id, hash.slice(0, -1) + other)).toBe("NO_SUCH_DRAW");
    for (const typed of ["", "17", "12345678", `${short}0`, "'; DROP TABLE draw; --", "%", `${hash}0`]) {
      expect(await reasonOf(closed.id, typed), typed).toBe("NOT_A_RECEIPT");
    }
  });

  it("does not stand once a later link was changed behind the database's back", async () => {
    const { db } = grounds;
    const links = await db.draw.findMany({ where: { trialId: open.id }, orderBy: { number: "asc" } });
    const stands = async (hash: string) => {
      const standing = await readReceipt(open.id, hash, db);
      return standing.ok && standing.stands;
    };
    const [first, second, third] = links as [(typeof links)[0], (typeof links)[0], (typeof links)[0]];
    await behindItsBack("UPDATE draw SET previous_hash = $1 WHERE id = $2", [third.hash, second.id]);
    expect(await stands(first.hash)).toBe(false);
    expect(await stands(third.hash)).toBe(true);
    await behindItsBack("UPDATE trial SET last_hash = $1 WHERE id = $2", [first.hash, open.id]);
    expect(await stands(third.hash)).toBe(false);
  });
});
