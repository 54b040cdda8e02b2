import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import { actorOfClaims } from "@/lib/auth/session";
import { accountsPage, allowLeading, allowSignIn, mailsPage } from "@/lib/services/accounts/admin";
import { adminHealth, readHealth } from "@/lib/services/health";
import { newMember } from "./accounts-fixture";
import { ownGrounds, run } from "./growing-fixture";

const grounds = ownGrounds();

describe("what an admin may do", () => {
  it("is refused to everybody else as if it weren't there, and changes nothing", async () => {
    const { db } = grounds;
    const { actor: lead } = await newMember(db, "Jon", { mayLead: true });
    const target = await newMember(db, "Kattalin");
    const change = { accountId: target.claims.accountId, allowed: false };
    // Rights an actor once had don't count: the database is asked again.
    const stale = { ...lead, isAdmin: true };
    for (const actor of [lead, stale]) {
      for (const use of [
        run(db, (tx) => allowSignIn(tx, actor, change)),
        run(db, (tx) => allowLeading(tx, actor, { ...change, allowed: true })),
        accountsPage(db, actor, undefined),
        mailsPage(db, actor, undefined),
      ]) {
        expect(await use).toEqual({ ok: false, reason: "NOT_FOUND" });
      }
    }
    expect(await actorOfClaims(db, target.claims)).toMatchObject({ mayLead: false });
  });

  it("leaves a trace by pseudonym, and can't shut themselves out", async () => {
    const { db } = grounds;
    const admin = await newMember(db, "Lide", { isAdmin: true });
    const target = await newMember(db, "Mikel");
    const { accountId } = target.claims;
    await run(db, (tx) => allowLeading(tx, admin.actor, { accountId, allowed: true }));
    expect(await actorOfClaims(db, target.claims)).toMatchObject({ mayLead: true });
    const [entry] = await db.auditEntry.findMany({ where: { subjectId: target.actor.growerId } });
    expect(entry).toMatchObject({ growerId: admin.actor.growerId, action: "lead.granted" });
    const self = { accountId: admin.claims.accountId, allowed: false };
    expect(await run(db, (tx) => allowSignIn(tx, admin.actor, self))).toEqual({
      ok: false,
      reason: "NOT_YOURSELF",
    });
  });

  it("sees accounts without their addresses, page by page, each once", async () => {
    const { db } = grounds;
    const admin = await newMember(db, "Nerea", { isAdmin: true });
    for (let i = 0; i < 60; i++) {
      const [growerId, householdId] = [v7(), v7()];
      await db.household.create({ data: { id: householdId, joinCode: v7() } });
      await db.grower.create({ data: { id: growerId, householdId } });
      const email = `${growerId}@example.org`;
      await db.account.create({
        data: { id: v7(), name: "Invented", email, passwordHash: "none", growerId },
      });
    }
    const seen: string[] = [];
    let after: string | undefined;
    do {
      const page = await accountsPage(db, admin.actor, after);
      if (!page.ok) throw new Error(page.reason);
      expect(JSON.stringify(page.value)).not.toContain("@");
      seen.push(...page.value.rows.map(({ id }) => id));
      after = page.value.next ?? undefined;
    } while (after);
    expect(seen.length).toBe(await db.account.count());
    expect(new Set(seen).size).toBe(seen.length);
  });

  it("finds an account by part of its name or by its whole address, never by part of one", async () => {
    const { db } = grounds;
    const admin = await newMember(db, "Oihana", { isAdmin: true });
    const found = async (search: string) => {
      const page = await accountsPage(db, admin.actor, undefined, search);
      if (!page.ok) throw new Error(page.reason);
      return page.value.rows.map(({ name }) => name);
    };
    const { email } = await db.account.findFirstOrThrow({ where: { name: "Oihana" } });
    expect(await found(" oIHa ")).toEqual(["Oihana"]);
    expect(await found(email.toUpperCase())).toEqual(["Oihana"]);
    expect(await found(email.slice(0, -1))).toEqual([]);
    expect(await found("%_'; DROP TABLE account; --")).toEqual([]);
  });

  it("sees how the machine room stands, which nobody else does, and no secret in it", async () => {
    const { db } = grounds;
    const admin = await newMember(db, "Peru", { isAdmin: true });
    const grower = await newMember(db, "Sua");
    const health = await readHealth(() => db);
    expect(await adminHealth(db, null, health)).toBeNull();
    expect(await adminHealth(db, { ...grower.actor, isAdmin: true }, health)).toBeNull();
    const seen = await adminHealth(db, admin.actor, health);
    expect(seen).toMatchObject({ runsQueued: 0, pictures: 0, mail: { waiting: 0, isServerNamed: false } });
    expect(seen!.postgresVersion).toMatch(/^\d+/);
    for (const secret of [process.env.NEXTAUTH_SECRET!, process.env.GRAINLOT_SEAL_KEY!]) {
      expect(JSON.stringify(seen)).not.toContain(secret);
    }
  });
});
