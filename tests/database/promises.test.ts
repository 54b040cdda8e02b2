import { randomUUID } from "node:crypto";
import pg from "pg";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type FreshDatabase, freshDatabase } from "../harness/database";

/** What the database holds to by itself, tried as the application's role and as the owner of the tables. */
let database: FreshDatabase;
let app: pg.Client;
let owner: pg.Client;
const hash = "a".repeat(64);

const ids = {
  household: randomUUID(),
  grower: randomUUID(),
  region: randomUUID(),
  trial: randomUUID(),
  variant: randomUUID(),
  arm: randomUUID(),
  enrolment: randomUUID(),
  site: randomUUID(),
  outing: randomUUID(),
  box: randomUUID(),
  draw: randomUUID(),
  grade: randomUUID(),
  event: randomUUID(),
};

beforeAll(async () => {
  database = await freshDatabase();
  app = new pg.Client({ connectionString: database.appUrl });
  owner = new pg.Client({ connectionString: database.ownerUrl });
  await Promise.all([app.connect(), owner.connect()]);
  await layOneDrawnOuting();
});
afterAll(async () => {
  await Promise.all([app.end(), owner.end()]);
  await database.drop();
});

async function layOneDrawnOuting(): Promise<void> {
  const run = (sql: string, values: unknown[]) => app.query(sql, values);
  await run("INSERT INTO household (id, join_code) VALUES ($1, 'HOME-1')", [ids.household]);
  await run("INSERT INTO grower (id, household_id) VALUES ($1, $2)", [ids.grower, ids.household]);
  await run(
    "INSERT INTO region (id, code, name, south, west, north, east) VALUES ($1, 'r1', 'Invented', 42, -5, 44, -1)",
    [ids.region],
  );
  await run(
    `INSERT INTO trial (id, slug, title, question, join_code, boxes_min, boxes_max, ends_on, grouping)
     VALUES ($1, 'invented', 'Invented', 'Which?', 'JOIN-1', 2, 6, '2027-01-01', '[]')`,
    [ids.trial],
  );
  await run(
    "INSERT INTO protocol_variant (id, content_hash, grain, content) VALUES ($1, $2, 'millet', '{}')",
    [ids.variant, hash],
  );
  await run("INSERT INTO arm (id, trial_id, variant_id, code, position) VALUES ($1, $2, $3, 'A', 1)", [
    ids.arm,
    ids.trial,
    ids.variant,
  ]);
  await run("INSERT INTO trial_region (trial_id, region_id, capacity) VALUES ($1, $2, 1)", [
    ids.trial,
    ids.region,
  ]);
  await run(
    `UPDATE trial SET status = 'open', plan = '{}', plan_hash = $2, seal = $2, last_hash = $2, opened_at = now()
     WHERE id = $1`,
    [ids.trial, hash],
  );
  await run(
    `INSERT INTO enrolment (id, trial_id, household_id, region_id, pseudonym) VALUES ($1, $2, $3, $4, 'H1')`,
    [ids.enrolment, ids.trial, ids.household, ids.region],
  );
  await run("INSERT INTO site (id, grower_id, household_id, koppen_class) VALUES ($1, $2, $3, 'Cfb')", [
    ids.site,
    ids.grower,
    ids.household,
  ]);
  await run(
    `INSERT INTO outing (id, trial_id, enrolment_id, grower_id, site_id, region_id, code, day, box_kind,
       inner_length_cm, inner_width_cm, grain_depth_cm, cover, guard, grains_at_hand)
     VALUES ($1, $2, $3, $4, $5, $6, 'K7Q', '2026-11-20', 'untreated-wood', 30, 20, 6, 'cloth', 'mesh', '{millet}')`,
    [ids.outing, ids.trial, ids.enrolment, ids.grower, ids.site, ids.region],
  );
  await run("INSERT INTO box (id, outing_id, position, code) VALUES ($1, $2, 1, 'K7Q-1')", [
    ids.box,
    ids.outing,
  ]);
  await run(
    `INSERT INTO draw (id, trial_id, number, outing_id, algorithm, inputs, result, previous_hash, hash, drawn_at, time_salt)
     VALUES ($1, $2, 1, $3, 'x/1', '{}', '[]', $4, $4, now(), 's')`,
    [ids.draw, ids.trial, ids.outing, hash],
  );
  await run("INSERT INTO allocation (box_id, arm_id, draw_id) VALUES ($1, $2, $3)", [
    ids.box,
    ids.arm,
    ids.draw,
  ]);
  await run(
    `UPDATE outing SET status = 'drawn', committed_at = now(), band = 'mild', koppen_class = 'Cfb' WHERE id = $1`,
    [ids.outing],
  );
  await run(
    `INSERT INTO grade (id, box_id, grader_id, revision, measures, take, recorded_at, offset_minutes)
     VALUES ($1, $2, $3, 1, '{}', 3, now(), 60)`,
    [ids.grade, ids.box, ids.grower],
  );
  await run(
    `INSERT INTO box_event (id, box_id, grower_id, kind, occurred_at, offset_minutes)
     VALUES ($1, $2, $3, 'set_out', now(), 60)`,
    [ids.event, ids.box, ids.grower],
  );
}

const appendOnly = [
  "protocol_variant",
  "agreement",
  "draw",
  "allocation",
  "box_event",
  "grade",
  "pool_result",
  "audit_entry",
  "plan_amendment",
];

describe("what is written once stays", () => {
  it.each(appendOnly)("%s can't be changed, deleted or emptied by the application", async (table) => {
    const column = (
      await owner.query(
        `SELECT column_name AS name FROM information_schema.columns WHERE table_name = $1 AND table_schema = 'public' LIMIT 1`,
        [table],
      )
    ).rows[0].name;
    await expect(app.query(`UPDATE ${table} SET ${column} = ${column}`)).rejects.toThrow(/permission denied/);
    await expect(app.query(`DELETE FROM ${table}`)).rejects.toThrow(/permission denied/);
    await expect(app.query(`TRUNCATE ${table} CASCADE`)).rejects.toThrow(/permission denied/);
  });

  it.each([
    ["draw", "hash = repeat('b', 64)"],
    ["allocation", "arm_id = arm_id"],
    ["grade", "take = 4"],
    ["box_event", "kind = 'opened'"],
    ["protocol_variant", "grain = 'rice'"],
  ])("%s can't be changed, deleted or emptied even by the owner of the tables", async (table, change) => {
    await expect(owner.query(`UPDATE ${table} SET ${change}`)).rejects.toThrow(/append only/);
    await expect(owner.query(`DELETE FROM ${table}`)).rejects.toThrow(/append only/);
    await expect(owner.query(`TRUNCATE ${table} CASCADE`)).rejects.toThrow(/append only/);
  });

  it("keeps a correction as a further revision and refuses the same revision twice", async () => {
    const insert = (revision: number) =>
      app.query(
        `INSERT INTO grade (id, box_id, grader_id, revision, measures, take, recorded_at, offset_minutes)
         VALUES ($1, $2, $3, $4, '{}', 2, now(), 60)`,
        [randomUUID(), ids.box, ids.grower, revision],
      );
    await insert(2);
    await expect(insert(2)).rejects.toThrow(/unique/);
    const kept = await app.query("SELECT take FROM grade WHERE box_id = $1 ORDER BY revision", [ids.box]);
    expect(kept.rows.map((row) => row.take)).toEqual([3, 2]);
  });
});

describe("a trial's plan", () => {
  it.each([
    ["question", "'Another?'"],
    ["seal", "repeat('b', 64)"],
    ["plan", "'{\"minimum\": 1}'::jsonb"],
    ["grouping", "'[{}]'::jsonb"],
    ["boxes_max", "12"],
    ["ends_on", "'2030-01-01'"],
  ])("is frozen once open: %s", async (column, value) => {
    await expect(
      owner.query(`UPDATE trial SET ${column} = ${value} WHERE id = $1`, [ids.trial]),
    ).rejects.toThrow(/frozen since it opened/);
  });

  it("keeps its recipes", async () => {
    await expect(owner.query("UPDATE arm SET code = 'B'")).rejects.toThrow(/frozen/);
    await expect(owner.query("DELETE FROM arm")).rejects.toThrow(/frozen|violates/);
    await expect(
      app.query("INSERT INTO arm (id, trial_id, variant_id, code, position) VALUES ($1, $2, $3, 'Z', 9)", [
        randomUUID(),
        ids.trial,
        ids.variant,
      ]),
    ).rejects.toThrow(/frozen/);
  });

  it("goes forward only, and closes only with its secret opened", async () => {
    await expect(app.query("UPDATE trial SET status = 'draft'")).rejects.toThrow(/can't go back/);
    await expect(app.query("UPDATE trial SET status = 'closed', closed_at = now()")).rejects.toThrow(
      /trial_closed/,
    );
    await expect(app.query("UPDATE trial SET draw_count = -1")).rejects.toThrow(/taken back|draw_count/);
  });
});

describe("a drawn set of boxes", () => {
  it("stands as it was drawn", async () => {
    await expect(
      owner.query("UPDATE outing SET site_id = site_id, grains_at_hand = '{rice}'"),
    ).rejects.toThrow(/stands as it was drawn/);
    await expect(owner.query("UPDATE outing SET status = 'planned'")).rejects.toThrow(/never taken back/);
    await expect(
      app.query("INSERT INTO box (id, outing_id, position, code) VALUES ($1, $2, 2, 'K7Q-2')", [
        randomUUID(),
        ids.outing,
      ]),
    ).rejects.toThrow(/stands as it was drawn/);
  });

  it("is drawn once", async () => {
    await expect(
      app.query(
        `INSERT INTO draw (id, trial_id, number, outing_id, algorithm, inputs, result, previous_hash, hash, drawn_at, time_salt)
         VALUES ($1, $2, 2, $3, 'x/1', '{}', '[]', $4, $5, now(), 's')`,
        [randomUUID(), ids.trial, ids.outing, hash, "c".repeat(64)],
      ),
    ).rejects.toThrow(/unique/);
  });

  it("may still be moved to another day, or abandoned with its draw", async () => {
    await app.query("UPDATE outing SET day = '2026-11-22' WHERE id = $1", [ids.outing]);
    await app.query("UPDATE outing SET status = 'abandoned', abandoned_at = now() WHERE id = $1", [
      ids.outing,
    ]);
    const allocations = await app.query("SELECT count(*)::int AS n FROM allocation");
    expect(allocations.rows[0].n).toBe(1);
  });
});

describe("values", () => {
  it("never seats more households than a region has places", async () => {
    const take = () =>
      app.query("UPDATE trial_region SET seats_taken = seats_taken + 1 WHERE trial_id = $1", [ids.trial]);
    await take();
    await expect(take()).rejects.toThrow(/trial_region_seats/);
  });

  it.each([
    [
      "a sixth class of growth",
      "INSERT INTO grade (id, box_id, grader_id, revision, measures, take, recorded_at, offset_minutes) VALUES ($1, $2, $3, 9, '{}', 5, now(), 0)",
    ],
    [
      "revision 0",
      "INSERT INTO grade (id, box_id, grader_id, revision, measures, take, recorded_at, offset_minutes) VALUES ($1, $2, $3, 0, '{}', 1, now(), 0)",
    ],
  ])("refuses %s", async (_name, sql) => {
    await expect(app.query(sql, [randomUUID(), ids.box, ids.grower])).rejects.toThrow(/check constraint/);
  });
});
