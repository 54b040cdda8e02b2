import { createHash } from "node:crypto";
import sharp from "sharp";
import { v7 } from "uuid";
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from "vitest";
import { POST as postRemoval } from "@/app/api/v1/photos/removals/route";
import { POST as postPhoto } from "@/app/api/v1/photos/route";
import { GET as getPhoto } from "@/app/photos/[id]/route";
import type { Actor } from "@/lib/auth/actor";
import { database } from "@/lib/data/client";
import { photoStore } from "@/lib/photos/disk-store";
import { leave } from "@/lib/services/accounts/leave";
import { drawOuting } from "@/lib/services/growing/draw-outing";
import { makeHelperLink, takeBackHelperLink } from "@/lib/services/growing/helper-link";
import { setPhotos } from "@/lib/services/growing/photos";
import { planOuting } from "@/lib/services/growing/plan-outing";
import { MOST_PHOTOS } from "@/shared/vocabulary/photo";
import { newMember, PASSWORD } from "./accounts-fixture";
import { joinedGrower, newGrower, newOpenTrial, ownGrounds, plan, run } from "./growing-fixture";
import { type DrawnSet, drawnSet } from "./lead-fixture";

// Who asks is set here, because a session needs a request of a running server; all else is real.
let asking: Actor | null = null;
vi.mock("@/lib/auth/session", async (original) => ({
  ...(await original<typeof import("@/lib/auth/session")>()),
  currentActor: async () => asking,
}));
/** The secret of the helper link that was opened in the browser that asks. */
let opened: string | null = null;
vi.mock("next/headers", () => ({
  cookies: async () => ({ get: () => (opened === null ? undefined : { value: opened }) }),
}));

const grounds = ownGrounds();
let owner: Actor;
let stranger: Actor;
let lead: Actor;
let set: { readonly outingId: string; readonly boxId: string; readonly undrawnBoxId: string };
/** Of the owner's too, but no helper's. */
let otherSet: DrawnSet;

beforeAll(async () => {
  const { db } = grounds;
  const trial = await newOpenTrial(db);
  const joined = await joinedGrower(db, trial);
  owner = joined.grower;
  [stranger, lead] = [await newGrower(db, "Stranger"), await newGrower(db, "Lead")];
  await db.trialLead.create({ data: { trialId: trial.id, accountId: lead.accountId } });
  const [drawn, undrawn] = [plan(trial, joined.siteId, 2), plan(trial, joined.siteId, 2)];
  for (const step of [
    await run(db, (tx) => planOuting(tx, owner, drawn)),
    await run(db, (tx) => planOuting(tx, owner, undrawn)),
    await run(db, (tx) => drawOuting(tx, owner, { id: v7(), outingId: drawn.id })),
  ]) {
    expect(step).toMatchObject({ ok: true });
  }
  otherSet = await drawnSet(db, trial, owner, joined.siteId);
  set = { outingId: drawn.id, boxId: drawn.boxes[0]!.id, undrawnBoxId: undrawn.boxes[0]!.id };
});
afterAll(async () => {
  await database().$disconnect();
});

/** An invented picture; `shade` (1–17) tells one from the other, also as JPEG. */
const picture = (shade: number) =>
  sharp({ create: { width: 60, height: 40, channels: 3, background: { r: 15 * shade, g: 90, b: 60 } } })
    .jpeg()
    .toBuffer();

async function send(who: Actor | null, query: Record<string, string>, body: Buffer, headers = {}) {
  asking = who;
  const address = `http://127.0.0.1:3000/api/v1/photos?${new URLSearchParams(query)}`;
  const init = { method: "POST", headers: { "sec-fetch-site": "same-origin", ...headers } };
  const response = await postPhoto(new Request(address, { ...init, body: new Uint8Array(body) }));
  return { status: response.status, body: await response.json() };
}

async function remove(who: Actor | null, photoId: string, of: object = { boxId: set.boxId }) {
  asking = who;
  const init = { method: "POST", body: JSON.stringify({ id: v7(), photoId, ...of }) };
  const headers = { "content-type": "application/json", "sec-fetch-site": "same-origin" };
  return (await postRemoval(new Request("http://127.0.0.1:3000/", { ...init, headers }))).status;
}

async function look(who: Actor | null, id: string) {
  asking = who;
  const response = await getPhoto(new Request(`http://127.0.0.1:3000/photos/${id}`), {
    params: Promise.resolve({ id }),
  });
  return { status: response.status, type: response.headers.get("content-type") };
}

const ofBox = (changes = {}) => ({ id: v7(), purpose: "opened", of: set.boxId, ...changes });
const bytesOf = async (id: string) => {
  const { accountId, sha256 } = await grounds.db.photo.findUniqueOrThrow({ where: { id } });
  return photoStore().read(accountId, sha256);
};

describe("a picture of a box", () => {
  it("is kept once, whatever is sent again, and other content under its id is refused", async () => {
    const [query, body] = [ofBox({ takenAt: "2026-11-25T10:00:00+01:00" }), await picture(1)];
    const answers = await Promise.all([1, 2, 3].map(() => send(owner, query, body)));
    for (const { status, body: answer } of answers) {
      expect([status, answer]).toEqual([
        201,
        { id: query.id, widthPx: 60, heightPx: 40, hiddenReason: null },
      ]);
    }
    expect(await grounds.db.photo.count({ where: { id: query.id } })).toBe(1);
    expect((await send(owner, query, await picture(2))).status).toBe(409);
    expect((await send(stranger, query, body)).status).toBe(404);
    expect(await bytesOf(query.id)).not.toBeNull();
  });

  it("is seen by its owner and its trial's lead, and is not there for anyone else", async () => {
    const query = ofBox();
    await send(owner, query, await picture(3));
    expect(await look(owner, query.id)).toEqual({ status: 200, type: "image/jpeg" });
    expect((await look(lead, query.id)).status).toBe(200);
    for (const who of [stranger, { ...stranger, isAdmin: true }, null]) {
      expect((await look(who, query.id)).status).toBe(404);
    }
    expect((await look(owner, v7())).status).toBe(404);
    expect((await look(owner, "../../etc/passwd")).status).toBe(404);
  });

  it("once hidden is its owner's alone, who sees why", async () => {
    const query = ofBox();
    await send(owner, query, await picture(4));
    const hidden = { hiddenAt: new Date(), hiddenReason: "A face is on it." };
    await grounds.db.photo.update({ where: { id: query.id }, data: hidden });
    expect((await look(lead, query.id)).status).toBe(404);
    expect((await look(owner, query.id)).status).toBe(200);
    const { ofBox: views } = await setPhotos(grounds.db, owner, set.outingId);
    expect(views.get(set.boxId)?.find(({ id }) => id === query.id)?.hiddenReason).toBe("A face is on it.");
  });

  it("is refused for another's box, before the draw, without a sign-in, and from another site", async () => {
    const body = await picture(5);
    expect((await send(stranger, ofBox(), body)).status).toBe(404);
    expect((await send(stranger, { id: v7(), purpose: "set-out", of: set.outingId }, body)).status).toBe(404);
    expect((await send(owner, ofBox({ of: v7() }), body)).status).toBe(404);
    const undrawn = await send(owner, ofBox({ of: set.undrawnBoxId }), body);
    expect([undrawn.status, undrawn.body.reason]).toEqual([409, "NOT_DRAWN_YET"]);
    expect((await send(null, ofBox(), body)).status).toBe(401);
    expect((await send(owner, ofBox(), body, { "sec-fetch-site": "cross-site" })).status).toBe(403);
    // What was refused leaves no bytes behind.
    const encoded = await sharp(body).flatten({ background: "white" }).jpeg({ quality: 82 }).toBuffer();
    const sha256 = createHash("sha256").update(encoded).digest("hex");
    for (const who of [owner, stranger]) expect(await photoStore().read(who.accountId, sha256)).toBeNull();
  });

  it("is refused with words when it is none, HEIC, or over 10 MB, and when its address is wrong", async () => {
    const heic = Buffer.concat([Buffer.from([0, 0, 0, 24]), Buffer.from("ftypheic"), Buffer.alloc(400)]);
    const reasonOf = async (query: Record<string, string>, body: Buffer) => {
      const { status, body: answer } = await send(owner, query, body);
      return [status, answer.reason];
    };
    expect(await reasonOf(ofBox(), Buffer.from("<script>"))).toEqual([415, "NOT_A_PICTURE"]);
    expect(await reasonOf(ofBox(), Buffer.alloc(0))).toEqual([415, "NOT_A_PICTURE"]);
    expect(await reasonOf(ofBox(), heic)).toEqual([415, "PICTURE_IS_HEIC"]);
    expect(await reasonOf(ofBox(), Buffer.alloc(10_000_001))).toEqual([413, "PICTURE_TOO_LARGE"]);
    const body = await picture(6);
    for (const wrong of [{ purpose: "selfie" }, { id: "1" }, { takenAt: "yesterday" }, { more: "1" }]) {
      expect(await reasonOf(ofBox(wrong), body)).toEqual([422, "INVALID"]);
    }
  });

  it("comes at most so often, also when many arrive at once", async () => {
    const before = await grounds.db.photo.count({ where: { outingId: set.outingId } });
    expect(before).toBe(0);
    const bodies = await Promise.all([7, 8, 9, 10, 11, 12].map(picture));
    const answers = await Promise.all(
      bodies.map((body) => send(owner, { id: v7(), purpose: "set-out", of: set.outingId }, body)),
    );
    expect(answers.filter(({ status }) => status === 201)).toHaveLength(MOST_PHOTOS["set-out"]);
    expect(new Set(answers.map(({ body }) => body.reason))).toEqual(
      new Set([undefined, "TOO_MANY_PICTURES"]),
    );
  });

  it("is removed by its owner alone, bytes and all, unless another picture has the same", async () => {
    const [first, twin, body] = [ofBox(), ofBox(), await picture(13)];
    await send(owner, first, body);
    await send(owner, twin, body);
    expect(await remove(lead, first.id)).toBe(404);
    expect(await remove(owner, first.id, { outingId: set.outingId })).toBe(404); // it is of no set
    expect(await remove(owner, first.id, {})).toBe(422);
    expect(await remove(owner, first.id)).toBe(201);
    expect((await look(owner, first.id)).status).toBe(404);
    expect((await look(owner, twin.id)).status).toBe(200);
    const { accountId, sha256 } = await grounds.db.photo.findUniqueOrThrow({ where: { id: twin.id } });
    expect(await remove(owner, twin.id)).toBe(201);
    expect(await photoStore().read(accountId, sha256)).toBeNull();
  });
});

describe("a picture sent through a helper link", () => {
  const openLink = async (outingId: string) => {
    const made = await run(grounds.db, (tx) => makeHelperLink(tx, owner, outingId, new Date()));
    if (!made.ok) throw new Error(made.reason);
    opened = made.value.token;
  };
  afterEach(() => {
    opened = null;
  });

  it("is of a box of that set, in the grower's name; its helper sees and removes such pictures only", async () => {
    const own = ofBox();
    await send(owner, own, await picture(15));
    await openLink(set.outingId);
    const sent = ofBox();
    expect((await send(null, sent, await picture(16))).status).toBe(201);
    const row = await grounds.db.photo.findUniqueOrThrow({ where: { id: sent.id } });
    expect(row).toMatchObject({ accountId: owner.accountId, boxId: set.boxId, viaHelper: true });
    expect([(await look(null, sent.id)).status, (await look(null, own.id)).status]).toEqual([200, 404]);
    expect([(await look(owner, sent.id)).status, (await look(lead, sent.id)).status]).toEqual([200, 200]);
    expect(await remove(null, own.id)).toBe(404);
    expect(await remove(null, sent.id)).toBe(201);
    expect((await look(owner, sent.id)).status).toBe(404);
  });

  it("is refused of another set and of where the boxes stand, and nothing of theirs is seen or removed", async () => {
    const [theirs, standing] = [
      ofBox({ of: otherSet.boxIds[0]! }),
      { id: v7(), purpose: "set-out", of: set.outingId },
    ];
    await openLink(otherSet.outingId);
    expect((await send(null, theirs, await picture(17))).status).toBe(201);
    await openLink(set.outingId);
    expect((await look(null, theirs.id)).status).toBe(404);
    expect(await remove(null, theirs.id, { boxId: otherSet.boxIds[0] })).toBe(404);
    for (const query of [ofBox({ of: otherSet.boxIds[0]! }), ofBox({ of: set.undrawnBoxId }), standing]) {
      expect((await send(null, query, await picture(1))).status).toBe(404);
    }
  });

  it("is gone for its helper once a lead hid it, and everything once the link is taken back", async () => {
    await openLink(set.outingId);
    const [hidden, seen] = [ofBox(), ofBox()];
    for (const query of [hidden, seen]) expect((await send(null, query, await picture(2))).status).toBe(201);
    const hiding = { hiddenAt: new Date(), hiddenReason: "A face is on it." };
    await grounds.db.photo.update({ where: { id: hidden.id }, data: hiding });
    expect([(await look(null, hidden.id)).status, (await look(null, seen.id)).status]).toEqual([404, 200]);
    expect(await remove(null, hidden.id)).toBe(404);
    await run(grounds.db, (tx) => takeBackHelperLink(tx, owner, set.outingId, new Date()));
    expect((await look(null, seen.id)).status).toBe(404);
    expect(await remove(null, seen.id)).toBe(401);
    const late = await send(null, ofBox(), await picture(3));
    expect([late.status, late.body.reason]).toEqual([401, "HELPER_LINK_ENDED"]);
  });
});

describe("deleting an account", () => {
  it("takes its pictures' bytes along and nobody else's", async () => {
    const { db } = grounds;
    const { actor } = await newMember(db, "Ugoleaves");
    const body = await picture(14);
    for (const { accountId } of [actor, owner]) {
      const stored = await photoStore().keep(accountId, body);
      if (!stored.ok) throw new Error(stored.reason);
      const row = { id: v7(), accountId, boxId: set.boxId, purpose: "opened", ...stored.value };
      await db.photo.create({ data: row });
    }
    const { sha256 } = await db.photo.findFirstOrThrow({ where: { accountId: actor.accountId } });
    expect(await photoStore().read(actor.accountId, sha256)).not.toBeNull();
    expect(await run(db, (tx) => leave(tx, actor, "a wrong guess entirely"))).toMatchObject({ ok: false });
    expect(await photoStore().read(actor.accountId, sha256)).not.toBeNull();
    expect((await run(db, (tx) => leave(tx, actor, PASSWORD))).ok).toBe(true);
    expect(await photoStore().read(actor.accountId, sha256)).toBeNull();
    expect(await photoStore().read(owner.accountId, sha256)).not.toBeNull();
    expect(await db.photo.count({ where: { accountId: actor.accountId } })).toBe(0);
  });
});
