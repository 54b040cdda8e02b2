import pg from "pg";
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import { DEMO_CLOSED_TRIAL, DEMO_OPEN_TRIAL } from "../../prisma/seed/trials";
import { launchBrowser } from "../harness/browser";
import {
  type Belongings,
  gradeOf,
  PRIVATE_NOTE,
  PRIVATE_SITE_NAME,
  planSet,
  sendPicture,
  setOf,
} from "./growing";
import { demoPerson, newGrower, newId, origin, post, stranger, type Visitor } from "./visitor";

/** Every actor, every resource, every action, against the real server: who gets in, and what anyone else sees. */
let browser: Browser;
let database: pg.Client;
const people = {} as Record<"owner" | "other" | "nobody" | "lead" | "admin", Visitor>;
let owned: Belongings;

const others = ["other", "lead", "admin"] as const;
/** The owner's, once there is a record. */
const [jarId, photoId] = [newId(), newId()];

beforeAll(async () => {
  browser = await launchBrowser();
  database = new pg.Client({ connectionString: inject("app").ownerUrl });
  await database.connect();
  people.owner = await newGrower(browser, "Maren");
  people.other = await newGrower(browser, "Tibor");
  people.nobody = await stranger(browser);
  people.lead = await demoPerson(browser, "lead");
  people.admin = await demoPerson(browser, "admin");
  owned = await planSet(people.owner);
  await planSet(people.other, "By the old kiln");
});
afterAll(async () => {
  await database.end();
  await browser.close();
});

const event = (kind: string) => ({
  id: newId(),
  boxId: owned.boxIds[0]!,
  kind,
  occurredAt: new Date().toISOString(),
  withdrawsId: null,
  note: null,
});

const jarContents = () => ({
  boxes: [{ boxId: owned.boxIds[0]!, grainG: 20 }],
  sugarG: 20,
  madeAt: new Date().toISOString(),
});

/** Invented, and nobody's but the owner's to see. */
const PIN = {
  latitude: 43.36214,
  longitude: -3.84532,
  accuracyM: 7,
  source: "phone",
  takenAt: new Date().toISOString(),
};

/** That the last box is out, so that the others stay as they are. */
const reportOf = (pin: typeof PIN | null) => ({
  id: newId(),
  outingId: owned.outingId,
  occurredAt: new Date().toISOString(),
  told: [{ id: newId(), boxId: owned.boxIds.at(-1)!, kind: "set-out", detail: null }],
  standing: null,
  pin,
  note: null,
});

/** Everything a phone can do to what the owner has, by name. */
const actions: Record<string, () => [noun: string, body: unknown]> = {
  "draw the recipes of": () => ["draws", { id: newId(), outingId: owned.outingId }],
  "give up": () => ["abandonments", { id: newId(), outingId: owned.outingId, reason: "no-time", note: null }],
  "tell an event of": () => ["box-events", event("set-out")],
  "report of": () => ["set-reports", reportOf(null)],
  "pin the spot of": () => ["pins", { id: newId(), outingId: owned.outingId, pin: PIN }],
  "erase the spot of": () => ["pins", { id: newId(), outingId: owned.outingId, pin: null }],
  "move the day of": () => [
    "outing-days",
    { id: newId(), outingId: owned.outingId, basedOn: 1, day: new Date().toISOString().slice(0, 10) },
  ],
  "plan anew": () => {
    const { trialId: _trial, ...set } = setOf(owned.siteId, owned.boxIds);
    return ["outing-changes", { ...set, outingId: owned.outingId, basedOn: 1 }];
  },
  "leave a box out of": () => [
    "missing-boxes",
    { id: newId(), outingId: owned.outingId, occurredAt: new Date().toISOString() },
  ],
  "record growth of": () => ["grades", gradeOf(owned.boxIds[0]!, 50)],
  "correct a record of": () => ["grades", gradeOf(owned.boxIds[0]!, 50, 1)],
  "make a jar of": () => ["jars", { id: newId(), ...jarContents() }],
  "correct a jar of": () => ["jars/edits", { id: newId(), jarId, basedOn: 1, ...jarContents() }],
  "change the place of": () => [
    "site-changes",
    { id: newId(), siteId: owned.siteId, basedOn: 1, name: "Mine now" },
  ],
  "tell the weather of": () => ["weather", { id: newId(), outingId: owned.outingId, days: [] }],
  "delete a jar of": () => ["jars/removals", { id: newId(), jarId }],
  "remove a picture of": () => ["photos/removals", { id: newId(), photoId, boxId: owned.boxIds[0]! }],
};

async function status(visitor: Visitor, path: string): Promise<{ code: number; text: string }> {
  const answer = await visitor.context.request.get(path, { maxRedirects: 0 });
  return { code: answer.status(), text: await answer.text() };
}

/** A picture of the owner's first box. */
const sendsPicture = (who: keyof typeof people, id: string) =>
  sendPicture(people[who], { id, purpose: "opened", of: owned.boxIds[0]! });

function refusesOthers(): void {
  for (const [name, action] of Object.entries(actions)) {
    it.each(others)(`the %s can't ${name} somebody's set of boxes`, async (who) => {
      const [noun, body] = action();
      const answer = await post(people[who], noun, body);
      expect(answer.status()).toBe(404);
      expect(await answer.text()).not.toMatch(/barley|rice/i);
    });
    it(`nobody without an account can ${name} it`, async () => {
      const [noun, body] = action();
      expect((await post(people.nobody, noun, body)).status()).toBe(401);
    });
  }
  it.each(others)("the %s can't plan a set at somebody's place", async (who) => {
    const body = setOf(owned.siteId, [newId(), newId()]);
    expect((await post(people[who], "outings", body)).status()).toBe(404);
  });
}

const leadPages = [
  ...["", "/design", "/edit", "/plan", "/results", "/results/figures", "/results/rows"].map(
    (part) => `/lead/trials/${DEMO_OPEN_TRIAL.id}${part}`,
  ),
  ...["people", "letters", "corrections", "pause", "leads"]
    .concat("recruit", "recruit/poster", "copy", "export", "export/boxes")
    .map((part) => `/lead/trials/${DEMO_OPEN_TRIAL.id}/${part}`),
  ...["/results", "/results/figures", "/results/rows", "/release", "/export/boxes"].map(
    (part) => `/lead/trials/${DEMO_CLOSED_TRIAL.id}${part}`,
  ),
];

const ownersPages = () => [
  `/outings/${owned.outingId}`,
  `/outings/${owned.outingId}/boxes/1/grade`,
  `/outings/${owned.outingId}/edit`,
  `/outings/${owned.outingId}/sheet`,
  `/outings/${owned.outingId}/calendar`,
  `/outings/${owned.outingId}/weather`,
  `/jars/${jarId}`,
  `/jars/${jarId}/edit`,
];

const privatePages = () => [
  ...ownersPages(),
  "/jars",
  "/jars/new",
  "/account",
  "/my-things",
  "/sites",
  "/variants",
  "/outings",
];

function showsOthersNothing(): void {
  it.each(others)("the %s gets 404 for the set, its boxes and their jar", async (who) => {
    for (const path of ownersPages()) {
      const { code } = await status(people[who], path);
      expect(code, path).toBe(404);
    }
  });
  it.each(others)("the %s gets 404 for the place, also to change it", async (who) => {
    for (const path of [`/sites/${owned.siteId}`, `/sites/${owned.siteId}/edit`]) {
      const { code, text } = await status(people[who], path);
      expect(code, path).toBe(404);
      expect(text).not.toContain(PRIVATE_SITE_NAME);
    }
  });
  it("nobody without an account gets further than signing in", async () => {
    for (const path of privatePages()) {
      const { code } = await status(people.nobody, path);
      expect([307, 303, 404], `${path} ${code}`).toContain(code);
    }
  });
  it.each([...others, "nobody" as const])(
    "no page shows the %s a place, an address or own words",
    async (who) => {
      const pages = [
        ...privatePages(),
        "/",
        "/trials",
        `/trials/${DEMO_OPEN_TRIAL.slug}`,
        `/trials/${DEMO_OPEN_TRIAL.slug}/results`,
        `/trials/${DEMO_CLOSED_TRIAL.slug}/results`,
        `/trials/${DEMO_OPEN_TRIAL.slug}/proof`,
        `/trials/${DEMO_OPEN_TRIAL.slug}/ledger`,
        `/trials/${DEMO_CLOSED_TRIAL.slug}/results/figures`,
        "/lead",
        ...leadPages,
        "/admin",
        "/admin/mails",
        "/account/data",
        "/health",
        "/api/health",
      ];
      for (const path of pages) {
        const { text } = await status(people[who], path);
        expect(text, path).not.toContain(PRIVATE_SITE_NAME);
        expect(text, path).not.toContain(PRIVATE_NOTE);
        expect(text, path).not.toContain(people.owner.email!);
        expect(text, path).not.toContain(owned.siteId);
        expect(text, path).not.toContain(String(PIN.latitude));
      }
    },
  );
}

describe("before the draw", () => {
  refusesOthers();
  showsOthersNothing();
  it("nobody has an allocation yet, the owner included", async () => {
    const { rows } = await database.query(
      "SELECT count(*)::int AS n FROM allocation WHERE box_id = ANY($1::uuid[])",
      [owned.boxIds],
    );
    expect(rows[0].n).toBe(0);
  });
});

describe("after the draw", () => {
  const record = { body: null as unknown };
  beforeAll(async () => {
    const drawn = await post(people.owner, "draws", { id: newId(), outingId: owned.outingId });
    expect(drawn.status(), await drawn.text()).toBe(201);
    record.body = gradeOf(owned.boxIds[0]!, 45);
    const saved = await post(people.owner, "grades", record.body);
    expect(saved.status(), await saved.text()).toBe(201);
    const out = await post(people.owner, "set-reports", reportOf(PIN));
    expect(out.status(), await out.text()).toBe(201);
    const jar = await post(people.owner, "jars", { id: jarId, ...jarContents() });
    expect(jar.status(), await jar.text()).toBe(201);
    expect((await sendsPicture("owner", photoId)).status()).toBe(201);
  });
  refusesOthers();
  showsOthersNothing();

  it("a picture of a box is there for its owner and the trial's lead, and sent by its owner alone", async () => {
    for (const who of ["owner", "lead"] as const) {
      expect((await status(people[who], `/photos/${photoId}`)).code, who).toBe(200);
    }
    for (const who of ["other", "admin", "nobody"] as const) {
      expect((await status(people[who], `/photos/${photoId}`)).code, who).toBe(404);
    }
    for (const who of others) expect((await sendsPicture(who, newId())).status(), who).toBe(404);
    expect((await sendsPicture("nobody", newId())).status()).toBe(401);
    expect((await status(people.owner, `/jars/${jarId}`)).code).toBe(200);
  });

  it("can't be drawn again, by its owner either", async () => {
    const again = await post(people.owner, "draws", { id: newId(), outingId: owned.outingId });
    expect(again.status()).toBe(409);
    expect((await again.json()).reason).toBe("ALREADY_DRAWN");
  });

  it("answers a repeated write as the first time, refuses the id for other content, and hides it from others", async () => {
    const first = record.body as ReturnType<typeof gradeOf>;
    const repeat = await post(people.owner, "grades", first);
    expect(repeat.status()).toBe(201);
    expect((await post(people.owner, "grades", { ...first, note: "other words" })).status()).toBe(409);
    expect((await post(people.other, "grades", first)).status()).toBe(404);
    const { rows } = await database.query("SELECT count(*)::int AS n FROM grade WHERE box_id = $1", [
      owned.boxIds[0],
    ]);
    expect(rows[0].n).toBe(1);
  });

  it("takes a correction from the revision it was made on, and no stale one", async () => {
    const box = owned.boxIds[0]!;
    expect((await post(people.owner, "grades", gradeOf(box, 55, 1))).status()).toBe(201);
    expect((await post(people.owner, "grades", gradeOf(box, 65, 1))).status()).toBe(412);
    const { rows } = await database.query("SELECT take FROM grade WHERE box_id = $1 ORDER BY revision", [
      box,
    ]);
    expect(rows.map((row) => row.take)).toEqual([3, 3]);
  });

  it("no result by recipe reaches anyone while the trial is open", async () => {
    for (const who of Object.keys(people) as (keyof typeof people)[]) {
      const { text } = await status(people[who], `/trials/${DEMO_OPEN_TRIAL.slug}/results`);
      expect(text).toMatch(/results still hidden/i);
      expect(text).not.toMatch(/95\s?% interval/);
    }
  });
});

describe("a box's record and own words at the lead's desk", () => {
  it("come without recipe, place or person, and aren't there for anyone else", async () => {
    const { rows } = await database.query("SELECT code FROM box WHERE id = $1", [owned.boxIds[0]]);
    const desk = `/lead/trials/${DEMO_OPEN_TRIAL.id}`;
    for (const page of [`${desk}/boxes/${rows[0].code}`, `${desk}/told`]) {
      const { code, text } = await status(people.lead, page);
      expect(code).toBe(200);
      expect(text).toContain(PRIVATE_NOTE.split(",")[0]);
      for (const secret of [PRIVATE_SITE_NAME, people.owner.email!, owned.siteId, "Maren"]) {
        expect(text).not.toContain(secret);
      }
      expect(text).not.toMatch(/pearl barley|brown rice/i);
      for (const who of ["owner", "other", "admin"] as const) {
        expect((await status(people[who], page)).code, who).toBe(404);
      }
      expect([303, 307]).toContain((await status(people.nobody, page)).code);
    }
  });
});

describe("the lead's and the admin's pages", () => {
  it.each(["owner", "other", "nobody"] as const)("are not there for the %s", async (who) => {
    for (const path of ["/admin", "/admin/mails", ...leadPages]) {
      const { code } = await status(people[who], path);
      expect([404, 307, 303, 401], `${path} ${code}`).toContain(code);
    }
  });
  it("the lead is no admin, and the admin doesn't lead others' trials", async () => {
    expect((await status(people.lead, "/admin")).code).toBe(404);
    for (const path of leadPages) expect((await status(people.admin, path)).code, path).toBe(404);
  });
});

describe("an open trial's ledger", () => {
  it.each(["owner", "other", "lead", "admin", "nobody"] as const)("stays sealed for the %s", async (who) => {
    const { code, text } = await status(people[who], `/trials/${DEMO_OPEN_TRIAL.slug}/ledger`);
    expect(code).toBe(409);
    expect(text).toContain("LEDGER_SEALED");
    expect(text).not.toMatch(/"arm"/);
  });
});

describe("what every write is held to", () => {
  it("refuses another site's request, what isn't JSON, and what is too large", async () => {
    const request = people.owner.context.request;
    const send = (headers: Record<string, string>, data: string) =>
      request.post("/api/v1/grades", { headers, data: Buffer.from(data) });
    const json = { "content-type": "application/json" };
    expect((await send({ ...json, origin: "https://elsewhere.example" }, "{}")).status()).toBe(403);
    expect((await send(json, "{}")).status()).toBe(403);
    expect((await send({ origin, "content-type": "text/plain" }, "{}")).status()).toBe(415);
    expect((await send({ ...json, origin }, "{")).status()).toBe(400);
    const large = await send({ ...json, origin }, JSON.stringify({ note: "x".repeat(1_100_000) }));
    expect(large.status()).toBe(413);
    expect(large.headers()["content-type"]).toContain("application/problem+json");
  });

  it("refuses a body that names what is the server's to say", async () => {
    const answer = await post(people.owner, "grades", {
      ...gradeOf(owned.boxIds[0]!, 10),
      masked: true,
      take: 4,
    });
    expect(answer.status()).toBe(422);
  });
});
