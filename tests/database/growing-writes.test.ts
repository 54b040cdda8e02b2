import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { POST as postSite } from "@/app/api/v1/sites/route";
import { POST as postVariant } from "@/app/api/v1/variants/route";
import type { Actor } from "@/lib/auth/actor";
import { database } from "@/lib/data/client";
import { BARLEY_RECIPE } from "../engine/grain/recipes";
import { coastSite, newGrower, ownGrounds } from "./growing-fixture";

// Who asks is set here, because a session needs a request of a running server; all else is real.
let asking: Actor | null = null;
vi.mock("@/lib/auth/session", () => ({ currentActor: async () => asking }));

const grounds = ownGrounds();
let owner: Actor;
let stranger: Actor;

beforeAll(async () => {
  owner = await newGrower(grounds.db, "Owner");
  stranger = await newGrower(grounds.db, "Stranger");
});
afterAll(async () => {
  await database().$disconnect();
});

function request(body: unknown, headers: Record<string, string> = {}): Request {
  return new Request("http://127.0.0.1:3000/api/v1/sites", {
    method: "POST",
    headers: { "content-type": "application/json", "sec-fetch-site": "same-origin", ...headers },
    body: typeof body === "string" ? body : JSON.stringify(body),
  });
}

async function post(actor: Actor | null, body: unknown, headers?: Record<string, string>) {
  asking = actor;
  const response = await postSite(request(body, headers));
  return { status: response.status, type: response.headers.get("content-type"), body: await response.json() };
}

describe("what a phone writes", () => {
  it("is kept once: the same again gets the first answer, even when ten copies arrive at once", async () => {
    const site = coastSite();
    const answers = await Promise.all(Array.from({ length: 10 }, () => post(owner, site)));
    expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([201]));
    expect(new Set(answers.map(({ body }) => JSON.stringify(body, Object.keys(body).sort()))).size).toBe(1);
    expect(await grounds.db.site.count({ where: { id: site.id } })).toBe(1);
    // The order of members is no other content.
    const turned = Object.fromEntries(Object.entries(site).reverse());
    expect((await post(owner, turned)).status).toBe(201);
  });

  it("is refused under a used id: 409 for other content, also of another kind, 404 for another person", async () => {
    const site = coastSite();
    expect((await post(owner, site)).status).toBe(201);
    const other = await post(owner, { ...site, name: "Somewhere else" });
    expect([other.status, other.body.reason]).toEqual([409, "ID_USED_FOR_OTHER_CONTENT"]);
    const theirs = await post(stranger, site);
    expect([theirs.status, theirs.body.reason]).toEqual([404, "NOT_FOUND"]);
    expect(JSON.stringify(theirs.body)).not.toContain("Beech");
    asking = owner;
    const content = { ...BARLEY_RECIPE, grain: "spelt" };
    expect((await postVariant(request({ id: site.id, name: "Spelt", content }))).status).toBe(409);
  });

  it("leaves no trace when refused, so that it can be mended and sent again", async () => {
    const site = { ...coastSite(), latitude: -48.9, longitude: -123.4, elevationM: 0 };
    const refused = await post(owner, site);
    expect([refused.status, refused.type]).toEqual([422, "application/problem+json"]);
    expect(refused.body.reason).toBe("NO_CLIMATE_HERE");
    expect(await grounds.db.receipt.count({ where: { id: site.id } })).toBe(0);
    const mended = { ...site, latitude: 43.5, longitude: -5.7 };
    expect((await post(owner, mended)).status).toBe(201);
  });

  it("is refused without a sign-in, from another site, as something other than JSON, and finer than 0.1°", async () => {
    const site = coastSite();
    expect((await post(null, site)).status).toBe(401);
    expect((await post(owner, site, { "sec-fetch-site": "cross-site" })).status).toBe(403);
    expect((await post(owner, site, { "content-type": "text/plain" })).status).toBe(415);
    expect((await post(owner, "{")).status).toBe(400);
    expect((await post(owner, { ...site, name: "x".repeat(1_000_001) })).status).toBe(413);
    const fine = await post(owner, { ...site, latitude: 43.53 });
    expect([fine.status, fine.body.fields]).toEqual([
      422,
      [{ path: "latitude", code: "site.latitude.tooFine", words: expect.stringMatching(/^One decimal/) }],
    ]);
    expect(await grounds.db.site.count({ where: { id: site.id } })).toBe(0);
  });
});
